/** A thread that looks through the whole file of a book while others work with it, and tells what it found. */
import { parentPort, workerData } from "node:worker_threads";
import { tablesFault } from "./faults.ts";
import { faultOf, openForReading } from "./tables.ts";

parentPort?.postMessage(found(String(workerData)));

function found(path: string): string | null {
  try {
    const database = openForReading(path);
    const fault = faultOf(database);
    database.close();
    return fault;
  } catch (fault) {
    const refusal = tablesFault(fault);
    return "what" in refusal ? refusal.what : refusal.type;
  }
}
