/** A page that holds the outbox of a browser and the cases of every outbox; the test calls what it puts on the window. */
import { uuidv7 } from "uuidv7";
import { forgetDeviceOutbox, openDeviceOutbox } from "../../../src/store/device/outbox.ts";
import type { Outbox } from "../../../src/store/outbox.ts";
import { RunningSha256 } from "../../../src/web/desk/sha256.ts";
import { outboxCases } from "../../store/outbox-acceptance.ts";

function sha256(bytes: Uint8Array): Uint8Array {
  const running = new RunningSha256();
  running.add(bytes);
  return Uint8Array.from(running.hex().match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
}

const place = (book: string) => ({
  ...{ book, sha256, newDevice: () => crypto.randomUUID(), newId: uuidv7, now: Date.now },
  chance: (bytes: number) => crypto.getRandomValues(new Uint8Array(bytes)),
});

async function opened(book: string): Promise<Outbox> {
  const outbox = await openDeviceOutbox(place(book));
  if (!outbox.ok) throw new Error(JSON.stringify(outbox.refusal));
  return outbox.value;
}

let held: Outbox | null = null;

const room = {
  names: outboxCases.map(({ name }) => name),
  /** Each case in a database of its own. */
  run: async (name: string): Promise<void> => {
    const book = crypto.randomUUID();
    await outboxCases.find((one) => one.name === name)?.run({ book, sha256, open: () => opened(book) });
    await forgetDeviceOutbox(book);
  },
  /** Why an outbox does not open; null where it does. */
  whyNot: async (book: string): Promise<string | null> => {
    const outbox = await openDeviceOutbox(place(book));
    if (outbox.ok) await outbox.value.close();
    return outbox.ok ? null : outbox.refusal.type === "not-kept" ? outbox.refusal.why : outbox.refusal.at;
  },
  hold: async (book: string): Promise<string> => {
    held = await opened(book);
    return held.device;
  },
  /** Answers the id once it is kept, or why it is not. */
  say: async (letters: number): Promise<{ readonly id: string } | { readonly why: string }> => {
    const said = await (held as Outbox).say({
      ...{ kind: "upset-seen", form: 1, manner: "report", by: null, subjects: [], restsOn: [] },
      happened: { earliest: "2026-03-04T07:30:00.000Z", latest: "2026-03-04T07:31:00.000Z", basis: "device-clock" },
      ...{ body: { note: "w".repeat(letters) }, private: null },
    });
    return said.ok ? { id: said.value.id } : { why: JSON.stringify(said.refusal) };
  },
  ids: async (): Promise<readonly string[]> => (await (held as Outbox).waiting(100_000)).map(({ id }) => id),
};

declare global {
  interface Window {
    outboxRoom: typeof room;
  }
}

window.outboxRoom = room;
