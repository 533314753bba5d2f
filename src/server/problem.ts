/** One shape for every error, after RFC 9457. */
import type { FastifyReply } from "fastify";
import { type Refusal, refusalWords, statusOf } from "../report/index.ts";

export function problem(reply: FastifyReply, status: number, type: string, title: string, mend: string): FastifyReply {
  return reply
    .code(status)
    .header("cache-control", "no-store")
    .type("application/problem+json")
    .send(JSON.stringify({ type, title, status, mend }));
}

export function answerRefusal(reply: FastifyReply, refusal: Refusal): FastifyReply {
  const { message, mend } = refusalWords(refusal);
  return problem(reply, statusOf(refusal), refusal.type, message, mend);
}
