import { type ReactElement, useEffect, useId, useState } from "react";
import type { Topic } from "../../core/table/question.ts";
import { unitText } from "../../report/index.ts";
import { desk } from "../desk/desk.ts";

const units = ["ppm", "ppb", "vol%", "mol/mol", "%LEL", "mg/m3", "ug/m3"];

/** Answers that a topic takes whatever the file holds; where none are listed the answer is typed. */
const listed: Partial<Readonly<Record<Topic, readonly string[]>>> = {
  unit: units,
  "reading kind": ["spot", "interval mean", "interval peak"],
  "decimal mark": [".", ","],
  "day and month": ["day-month-year", "month-day-year", "year-month-day"],
  encoding: ["utf-8", "windows-1252", "utf-16le", "utf-16be"],
  role: ["time", "date", "clock", "reading", "status", "series", "text", "number", "ignored"],
};

const useGases = (wanted: boolean): readonly string[] => {
  const [gases, setGases] = useState<readonly string[]>([]);
  useEffect(() => {
    if (wanted)
      void desk()
        .ask({ type: "limits", text: "" })
        .reply.then((all) => setGases(all.map((one) => one.gas)));
  }, [wanted]);
  return gases;
};

const offered = (topic: Topic, gases: readonly string[]): readonly string[] => {
  if (topic === "gas") return gases;
  if (topic === "zone") return ["UTC", ...Intl.supportedValuesOf("timeZone")];
  return [];
};

/** One answer: chosen where the topic has a list, typed with proposals where it has many. */
export const AnswerInput = ({
  topic,
  value,
  onChange,
  labelledBy,
}: {
  readonly topic: Topic;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly labelledBy: string;
}): ReactElement => {
  const list = useId();
  const gases = useGases(topic === "gas");
  const choices = listed[topic];
  if (choices !== undefined) {
    return (
      <select aria-labelledby={labelledBy} value={value} onChange={(event) => onChange(event.target.value)}>
        {!choices.includes(value) && <option value={value}>{value}</option>}
        {choices.map((one) => (
          <option key={one} value={one}>
            {topic === "unit" ? unitText(one) : one}
          </option>
        ))}
      </select>
    );
  }
  const proposals = offered(topic, gases);
  return (
    <>
      <input
        aria-labelledby={labelledBy}
        value={value}
        onChange={(event) => onChange(event.target.value)}
        autoComplete="off"
        {...(proposals.length > 0 ? { list } : {})}
      />
      {proposals.length > 0 && (
        <datalist id={list}>
          {proposals.map((one) => (
            <option key={one} value={one} />
          ))}
        </datalist>
      )}
    </>
  );
};
