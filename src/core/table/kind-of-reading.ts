/** What one logged number stands for. Files seldom say it and everything rests on it, so it is always named. */
import type { KindChooser, ReadingKind } from "../quantity/reading-kind.ts";
import { type Asking, reason } from "./asking.ts";
import { readingKindOfLabel } from "./label.ts";

export interface KindSaid {
  readonly kind: ReadingKind;
  readonly kindChosenBy: KindChooser;
}

/** A file that says nothing is taken as spot readings: a mean would hide what was above it. */
const UNSAID: KindSaid = { kind: "spot", kindChosenBy: "default" };

/** The kinds of all channels of a file, and the guesses about them: one for the whole file where no channel says more than another. */
export class KindsOfReading {
  private readonly asking: Asking;
  private readonly channels: (KindSaid & { readonly id: string; readonly label: string })[] = [];

  constructor(asking: Asking) {
    this.asking = asking;
  }

  /** An answer, else a word of the labels that name the channel, else what is taken where nobody says. */
  of(id: string, labels: readonly string[]): KindSaid {
    const said = this.answered(id) ?? kindInLabels(labels);
    this.channels.push({ id, label: said?.label ?? "", ...(said?.of ?? UNSAID) });
    return said?.of ?? UNSAID;
  }

  private answered(id: string): Saying | null {
    const told = this.asking.answerTo(`reading kind/${id}`);
    if (told === null) return null;
    if (told === "spot" || told === "interval mean" || told === "interval peak")
      return { of: { kind: told, kindChosenBy: "person" }, label: "" };
    this.asking.refuse({ type: "bad-answer", question: `reading kind/${id}`, answer: told });
    return null;
  }

  /** Notes each kind with its reason, once all channels are known. */
  note(): void {
    const [first] = this.channels;
    if (first === undefined) return;
    const isOne = this.channels.every(
      ({ kind, kindChosenBy }) => kindChosenBy !== "file" && kind === first.kind && kindChosenBy === first.kindChosenBy,
    );
    for (const { id, kind, kindChosenBy, label } of isOne ? [{ ...first, id: "*" }] : this.channels) {
      if (kindChosenBy === "person") this.asking.note("reading kind", id, kind, "certain", [reason("answered")]);
      else if (kindChosenBy === "file")
        this.asking.note("reading kind", id, kind, "strong", [
          reason("word in the label", this.asking.evidence.structure.headerLines[0] ?? null, label),
        ]);
      else this.asking.note("reading kind", id, kind, "weak", [reason("the file does not say")]);
    }
  }
}

interface Saying {
  readonly of: KindSaid;
  readonly label: string;
}

function kindInLabels(labels: readonly string[]): Saying | null {
  for (const label of labels) {
    const kind = readingKindOfLabel(label);
    if (kind !== null) return { of: { kind, kindChosenBy: "file" }, label };
  }
  return null;
}
