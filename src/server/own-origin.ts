/**
 * Whether a call that writes comes from a page of this server, or from no page at all. A page of another site can send
 * calls here in the visitor's browser; the browser then says where they come from.
 */
import type { IncomingHttpHeaders } from "node:http";

/** The foreign origin; null where the call is our own. */
export function foreignOrigin({ origin, host, "sec-fetch-site": site }: IncomingHttpHeaders): string | null {
  if (origin !== undefined && origin !== `http://${host ?? ""}`) return origin;
  const isOwn = site === undefined || site === "same-origin" || site === "none";
  return isOwn ? null : "another site";
}
