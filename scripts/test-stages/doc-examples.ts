import { checkExamples } from "../doc-examples.ts";
import { outcomeOfChecks, type Stage } from "./stage.ts";

export const docExamples: Stage = { name: "doc examples", run: async () => outcomeOfChecks(await checkExamples()) };
