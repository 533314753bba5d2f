/**
 * Whether a Host header names this machine itself. A page of another site can point a name of its own at 127.0.0.1
 * and ask here in the visitor's browser (DNS rebinding); its name gives it away.
 */
export function isOwnHost(host: string | undefined): boolean {
  return host !== undefined && /^(127\.0\.0\.1|localhost|\[::1\])(:\d{1,5})?$/i.test(host);
}
