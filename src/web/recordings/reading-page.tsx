import { Link } from "@tanstack/react-router";
import { type ReactElement, useEffect, useState } from "react";
import { countText, visibleText } from "../../report/index.ts";
import { forgetMapping, keepMapping, mappingKept } from "../desk/mappings.ts";
import { applyMapping, type Held, useHeld, wake } from "../desk/shelf.ts";
import { download } from "../parts/download.ts";
import { Marked } from "../parts/marked.tsx";
import { Changes } from "./changes.tsx";
import { FaultList } from "./fault-list.tsx";
import { GuessTable } from "./guess-table.tsx";
import { NotKept } from "./not-kept.tsx";
import { useOwnAddress } from "./own-address.ts";
import { PreviewTable } from "./preview-table.tsx";
import { ProgressLine } from "./progress-line.tsx";
import { QuestionForm, suggestedFor } from "./question-form.tsx";
import { cellChanges, isDateOpen, useTrial } from "./trial.ts";

const sentenceOf = (one: Held): string => {
  const opened = one.opened;
  if (one.fault !== null) return `Lamproom failed while reading this file: ${one.fault}`;
  if (opened === null) return "Reading the file.";
  const blocking = opened.channels.length > 0 ? 0 : opened.questions.filter((question) => question.blocking).length;
  if (blocking > 0)
    return `${blocking === 1 ? "One thing" : `${blocking} things`} in this file can be read in more than one way. Nothing is computed before you say which.`;
  if (opened.refusal !== null && opened.channels.length === 0) return `${opened.refusal.message} ${opened.refusal.mend}`;
  const count = opened.summary?.count;
  if (count === undefined) return `The file was read: ${countText(opened.channels.length)} channels.`;
  const left =
    count.rejected === 0
      ? "no line was left out"
      : `${countText(count.rejected)} ${count.rejected === 1 ? "line was" : "lines were"} left out`;
  return `${countText(count.rows)} rows were read and ${left}.`;
};

const basisOf = (one: Held): string => {
  const count = one.opened?.summary?.count;
  const size = `${visibleText(one.file.name)}, ${countText(one.file.size)} bytes`;
  if (count === undefined) return size;
  return `${size}, ${countText(count.lines)} lines: ${countText(count.rows)} rows, ${countText(count.header)} of heading, ${countText(count.skippedCount)} passed over, ${countText(count.rejected)} left out`;
};

const MappingActs = ({ one }: { readonly one: Held }): ReactElement | null => {
  const mapping = one.opened?.mapping ?? undefined;
  const [, redraw] = useState(0);
  const [fault, setFault] = useState<string | null>(null);
  if (mapping === undefined) return null;
  const kept = mappingKept(mapping.fingerprint) !== null;
  const load = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    try {
      // The reader checks form and fingerprint and refuses what does not fit.
      await applyMapping(one.id, JSON.parse(await file.text()));
      setFault(null);
    } catch (cause) {
      setFault(`${file.name} holds no mapping: ${cause instanceof Error ? cause.message : String(cause)}`);
    }
  };
  return (
    <section>
      <h2>Mapping</h2>
      <p className="small">
        What was settled about files with this heading.{" "}
        {kept
          ? "This browser remembers it and asks no more."
          : "Saved, it answers the same questions next time, here or on the command line."}
      </p>
      {fault !== null && (
        <p className="error" role="alert">
          {fault}
        </p>
      )}
      <p className="acts">
        <button
          type="button"
          className="act"
          onClick={() => download(`${one.file.name}.mapping.json`, "application/json", `${JSON.stringify(mapping, null, 2)}\n`)}
        >
          Save the mapping
        </button>
        <label className="act">
          Load a mapping
          <input type="file" accept=".json,application/json" className="hid" onChange={(event) => void load(event.target.files?.[0])} />
        </label>
        <button
          type="button"
          className="act"
          onClick={() => {
            if (kept) forgetMapping(mapping.fingerprint);
            else keepMapping({ mapping, given: one.given });
            redraw((times) => times + 1);
          }}
        >
          {kept ? "Forget it in this browser" : "Remember it in this browser"}
        </button>
      </p>
    </section>
  );
};

export const ReadingPage = ({ id }: { readonly id: string }): ReactElement => {
  const one = useHeld(id);
  useEffect(() => void wake(id), [id]);
  useOwnAddress(one, id, "/recordings/$id/reading");
  if (one === null) return <NotKept id={id} />;
  const proposal = one.opened?.proposal ?? null;
  const asks = (one.opened?.questions.length ?? 0) > 0;
  const read = (one.opened?.channels.length ?? 0) > 0;
  return (
    <main>
      <title>{`How ${visibleText(one.file.name)} was read: Lamproom`}</title>
      <h1 className="answer" aria-live="polite">
        <Marked text={sentenceOf(one)} strong />
      </h1>
      <p className="basis">{basisOf(one)}</p>
      {one.progress !== null && <ProgressLine id={one.id} progress={one.progress} />}
      {read && (
        <p className="acts">
          <Link className="act main" to="/recordings/$id" params={{ id }}>
            Open the recording
          </Link>
        </p>
      )}
      {one.opened?.refusal != null && one.opened.refusal.type !== "questions-open" && (read || asks) && (
        <p className="error" role="alert">
          {one.opened.refusal.message} {one.opened.refusal.mend}
        </p>
      )}
      <Asking key={questionKey(one)} one={one} read={read} />
      {proposal !== null && <GuessTable one={one} guesses={proposal.guesses} />}
      {one.opened?.summary != null && <FaultList faults={one.opened.faults} summary={one.opened.summary} file={one.file} />}
      <MappingActs key={one.opened?.mapping?.fingerprint ?? ""} one={one} />
    </main>
  );
};

/** Questions with the rows that their answers change, or the rows alone where nothing is asked. */
const Asking = ({ one, read }: { readonly one: Held; readonly read: boolean }): ReactElement => {
  const questions = one.opened?.questions ?? [];
  const [values, setValues] = useState(() => suggestedFor(questions));
  const trial = useTrial(one, values);
  const proposal = one.opened?.proposal ?? null;
  const standing = proposal?.preview ?? null;
  return (
    <>
      {questions.length > 0 && (
        <QuestionForm
          one={one}
          questions={questions}
          values={values}
          changes={trial === null || standing === null ? null : cellChanges(standing, trial.preview)}
          choose={setValues}
        />
      )}
      {one.mapping !== null && (
        <p className="small">Read with the mapping that you loaded. What stands below is what the file alone says.</p>
      )}
      {one.before !== null && one.opened !== null && read && <Changes before={one.before} after={one.opened} />}
      {proposal !== null && (
        <PreviewTable
          preview={trial?.preview ?? proposal.preview}
          mapping={trial?.mapping ?? proposal.mapping}
          before={trial === null ? (one.before?.proposal?.preview ?? null) : standing}
          dateOpen={!read && isDateOpen(questions, values)}
        />
      )}
    </>
  );
};

const questionKey = (one: Held): string => (one.opened?.questions ?? []).map((question) => question.id).join(" ");
