/** Lines that may be a footer: at the end of the file they are one; before more rows they are faults. */
import type { FaultList } from "./fault-list.ts";
import type { FaultType } from "./question.ts";
import type { RecordPlace } from "./walk-tools.ts";

interface FooterLine {
  readonly line: number;
  readonly offset: number;
  readonly text: string;
  readonly lines: number;
  readonly type: FaultType;
}

export class FooterLines {
  private readonly faults: FaultList;
  private readonly at: RecordPlace;
  private lines: FooterLine[] = [];

  constructor(faults: FaultList, at: RecordPlace) {
    this.faults = faults;
    this.at = at;
  }

  get isEmpty(): boolean {
    return this.lines.length === 0;
  }

  add(type: FaultType, text: string): void {
    this.lines.push({ line: this.at.line, offset: this.at.offset, text, lines: 1 + this.at.innerLines, type });
  }

  settle(isEnd: boolean): void {
    const { faults } = this;
    for (const { line, offset, text, lines, type } of this.lines) {
      if (isEnd) {
        faults.skip("footer", line, lines);
        faults.note(line, text);
        faults.add("footer", line, offset, null, text, false);
      } else {
        faults.add(type, line, offset, null, text, true);
        faults.rejected += lines;
      }
    }
    this.lines = [];
  }
}
