/** Opens the port on the loopback address and stops in good order. */
import closeWithGrace from "close-with-grace";
import type { FastifyInstance } from "fastify";
import { given, type Result, refused } from "../core/result.ts";
import type { CallRefusal } from "../report/index.ts";

export const USUAL_PORT = 4680;

/** The port that the environment asks for; nothing said is the usual one. */
export function portFrom(text: string | undefined): Result<number, CallRefusal> {
  if (text === undefined || text.trim() === "") return given(USUAL_PORT);
  const port = Number(text);
  if (/^\d{1,5}$/.test(text.trim()) && port <= 65_535) return given(port);
  return refused({ type: "flag-value-not-fitting", name: "PORT", value: text, expected: "a whole number from 0 to 65535" });
}

/** Listens; port 0 takes any free one. Gives the address to print. */
export async function listenOn(server: FastifyInstance, port: number): Promise<Result<string, CallRefusal>> {
  try {
    return given(await server.listen({ host: "127.0.0.1", port }));
  } catch (fault) {
    const code = fault instanceof Error && "code" in fault ? fault.code : null;
    if (code === "EADDRINUSE") return refused({ type: "port-in-use", port });
    if (code === "EACCES") return refused({ type: "port-not-allowed", port });
    throw fault;
  }
}

/** On Ctrl-C or an end signal: no new requests, those under way are finished, then the process ends. */
export function stopInGoodOrder(server: FastifyInstance): void {
  closeWithGrace({ delay: 5000 }, async () => {
    await server.close();
  });
}
