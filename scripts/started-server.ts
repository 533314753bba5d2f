import { spawn } from "node:child_process";
import { root } from "./run-tool.ts";

export interface StartedServer {
  readonly address: string;
  /** From the start of the command until its address stood on standard output. */
  readonly milliseconds: number;
  readonly stop: () => Promise<void>;
}

/** Starts Lamproom as a person would, on a free port, and waits until it has printed its address. */
export async function startServer(program = "npm", words: readonly string[] = ["start"]): Promise<StartedServer> {
  const begun = performance.now();
  const child = spawn(program, words, { cwd: root, env: { ...process.env, PORT: "0" }, stdio: ["ignore", "pipe", "inherit"] });
  const ended = new Promise<void>((resolve) => child.once("close", () => resolve()));
  const address = await new Promise<string>((resolve, reject) => {
    let said = "";
    child.stdout.setEncoding("utf8").on("data", (piece: string) => {
      said += piece;
      const found = /http:\/\/[\w.[\]:]+/.exec(said);
      if (found) resolve(found[0]);
    });
    child.once("error", reject).once("close", (code) => reject(new Error(`${program} ${words.join(" ")} ended with ${code}: ${said}`)));
  });
  const milliseconds = performance.now() - begun;
  const stop = async () => {
    child.kill("SIGTERM");
    await ended;
  };
  return { address, milliseconds, stop };
}
