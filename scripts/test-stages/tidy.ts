import { thisRepository } from "../tidy/repository.ts";
import { tidyChecks } from "../tidy.ts";
import { outcomeOfChecks, type Stage } from "./stage.ts";

export const tidy: Stage = { name: "tidy", run: async () => outcomeOfChecks(await tidyChecks(thisRepository())) };
