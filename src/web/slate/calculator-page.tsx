import { Link, useNavigate } from "@tanstack/react-router";
import { type ReactElement, useEffect, useState } from "react";
import { exactText, unitText, valueText } from "../../report/index.ts";
import type { CalculatorDescription, OutputField, SlateAnswer, SlateObject, SlateValue } from "../../work/slate/description.ts";
import { desk } from "../desk/desk.ts";
import type { SlateReply } from "../desk/protocol.ts";
import { Marked } from "../parts/marked.tsx";
import { OutcomeMark } from "../parts/marks.tsx";
import { useCalculators } from "./calculators.ts";
import { type Draft, draftOf, inputOf } from "./drafts.ts";
import { FieldInput } from "./field-input.tsx";
import { formWords } from "./refusal-words.ts";

const read = (text: string | null): SlateObject | null => {
  if (text === null) return null;
  try {
    const value: unknown = JSON.parse(text);
    // The calculator checks every field by name; here it only has to be an object.
    return typeof value === "object" && value !== null && !Array.isArray(value) ? (value as SlateObject) : null;
  } catch {
    // An address cut short by a mail program: the form opens blank.
    return null;
  }
};

const OutputValue = ({ field, value }: { readonly field: OutputField; readonly value: SlateValue | undefined }): ReactElement => {
  if (field.type === "rows" && Array.isArray(value)) {
    const rows = value as readonly SlateObject[]; // as the description says
    return (
      <table className="dense">
        <thead>
          <tr>
            {field.fields.map((each) => (
              <th key={each.name} scope="col">
                <Marked text={each.unit === null ? each.title : `${each.title}, ${unitText(each.unit)}`} />
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, place) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: results keep the order of the rows typed.
            <tr key={place}>
              {field.fields.map((each) => (
                <td key={each.name}>
                  <OutputValue field={{ ...each, unit: null }} value={row[each.name]} />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    );
  }
  // An upper end that nobody bounded is open; anything else without a value was not asked for.
  if (value === null || value === undefined)
    return field.name === "high" ? <em className="open">open</em> : <span className="r">not given</span>;
  if (typeof value === "number") return <Marked text={field.unit === null ? exactText(value) : valueText(value, field.unit)} />;
  return <Marked text={String(value)} />;
};

const Result = ({ calculator, answer }: { readonly calculator: CalculatorDescription; readonly answer: SlateAnswer }): ReactElement => (
  <section className="result" aria-label="Result">
    <h2>Figures, unrounded</h2>
    <dl className="figures">
      {calculator.outputs.map((field) => (
        <div key={field.name}>
          <dt>
            <Marked text={field.title} />
          </dt>
          <dd>
            <OutputValue field={field} value={answer.outputs[field.name]} />
          </dd>
        </div>
      ))}
    </dl>
    <h2>Grounds</h2>
    <ol className="grounds">
      {answer.grounds.map((ground) => (
        <li key={ground}>
          <Marked text={ground} />
        </li>
      ))}
    </ol>
    <h2>Sources</h2>
    <ul className="grounds">
      {answer.sources.map((source) => (
        <li key={source.title}>
          {source.title} <span className="r">({source.mark})</span>
        </li>
      ))}
    </ul>
  </section>
);

const CopyLink = (): ReactElement => {
  const [said, setSaid] = useState("");
  return (
    <>
      <button
        type="button"
        className="act"
        onClick={() =>
          void navigator.clipboard.writeText(window.location.href).then(
            () => setSaid("Copied: the inputs are in the address."),
            () => setSaid("This browser does not let the page copy; the address bar has the same link."),
          )
        }
      >
        Copy link
      </button>
      <span className="small" role="status">
        {said}
      </span>
    </>
  );
};

/** The result stands at the top; a refusal also takes the focus there, so that it is read out. */
const toSentence = (focus: boolean): void => {
  window.scrollTo(0, 0);
  const sentence = document.querySelector<HTMLElement>("h1");
  sentence?.setAttribute("tabindex", "-1");
  if (focus) sentence?.focus({ preventScroll: true });
};

type Refused = Extract<SlateReply, { readonly ok: false }>;

const refusedWords = (calculator: CalculatorDescription, reply: Refused): string => {
  const { message, mend } = formWords(reply.refusal, calculator.inputs) ?? reply.told;
  return `${message} ${mend}`;
};

const heading = (calculator: CalculatorDescription, reply: SlateReply | null): string => {
  if (reply === null) return `${calculator.title}: ${calculator.says}`;
  return reply.ok ? reply.answer.sentence : refusedWords(calculator, reply);
};

const wrongField = (
  calculator: CalculatorDescription,
  reply: SlateReply | null,
): { readonly path: string; readonly says: string } | null =>
  reply !== null && !reply.ok && reply.path !== null ? { path: reply.path, says: refusedWords(calculator, reply) } : null;

const Heading = ({
  calculator,
  reply,
}: {
  readonly calculator: CalculatorDescription;
  readonly reply: SlateReply | null;
}): ReactElement => (
  <>
    <h1 className={reply !== null && !reply.ok ? "answer refused" : "answer"} aria-live="polite">
      {reply?.ok === true && reply.answer.outcome !== null && <OutcomeMark outcome={reply.answer.outcome} />}
      <Marked text={heading(calculator, reply)} strong />
    </h1>
    <p className="basis">
      {calculator.title}. <Link to="/slate">All calculators</Link>
    </p>
  </>
);

/** The inputs of the address, worked out; null before there are any. */
const useReply = (calculator: CalculatorDescription, given: string | null): SlateReply | null => {
  const [reply, setReply] = useState<SlateReply | null>(null);
  useEffect(() => {
    let wanted = true;
    const asked = read(given);
    if (asked === null) setReply(null);
    else
      void desk()
        .ask({ type: "slate", name: calculator.id, input: asked })
        .reply.then((answer) => {
          if (!wanted) return;
          setReply(answer);
          toSentence(!answer.ok);
        });
    return () => {
      wanted = false;
    };
  }, [calculator, given]);
  return reply;
};

const Cautions = ({ calculator }: { readonly calculator: CalculatorDescription }): ReactElement => (
  <>
    <h2>Cautions</h2>
    <ul className="grounds">
      {calculator.cautions.map((caution) => (
        <li key={caution}>
          <Marked text={caution} />
        </li>
      ))}
    </ul>
  </>
);

const Form = ({ calculator, given }: { readonly calculator: CalculatorDescription; readonly given: string | null }): ReactElement => {
  const navigate = useNavigate();
  const input = read(given);
  const [draft, setDraft] = useState<Draft>(() => draftOf(calculator.inputs, input ?? {}));
  const reply = useReply(calculator, given);
  const work = (next: SlateObject): void =>
    void navigate({
      to: "/slate/$name",
      params: { name: calculator.id },
      search: { in: JSON.stringify(next) },
      replace: given !== null,
      resetScroll: false,
    });
  const wrong = wrongField(calculator, reply);
  return (
    <main>
      <title>{`${calculator.title}: Lamproom`}</title>
      <Heading calculator={calculator} reply={reply} />
      <div className="slate">
        <form
          noValidate
          onSubmit={(event) => {
            event.preventDefault();
            work(inputOf(calculator.inputs, draft));
          }}
        >
          <h2>Inputs</h2>
          {calculator.inputs.map((field) => (
            <FieldInput
              key={field.name}
              field={field}
              path={field.name}
              value={draft[field.name] ?? ""}
              wrong={wrong}
              onChange={(value) => setDraft({ ...draft, [field.name]: value })}
            />
          ))}
          <p className="acts">
            <button type="submit" className="act main">
              Work it out
            </button>
            {given !== null && <CopyLink />}
          </p>
          <Examples
            calculator={calculator}
            take={(example) => {
              setDraft(draftOf(calculator.inputs, example));
              work(example);
            }}
          />
        </form>
        <div>
          {reply?.ok === true && <Result calculator={calculator} answer={reply.answer} />}
          <Cautions calculator={calculator} />
        </div>
      </div>
    </main>
  );
};

const Examples = ({
  calculator,
  take,
}: {
  readonly calculator: CalculatorDescription;
  readonly take: (example: SlateObject) => void;
}): ReactElement => (
  <div className="examples">
    <h3>Examples</h3>
    {calculator.examples.map((example) => (
      <p key={example.says}>
        <button type="button" className="word" onClick={() => take(example.input)}>
          <Marked text={example.says} />
        </button>
      </p>
    ))}
  </div>
);

export const CalculatorPage = ({ name, given }: { readonly name: string; readonly given: string | null }): ReactElement => {
  const all = useCalculators();
  const calculator = all?.find((one) => one.id === name);
  if (calculator !== undefined) return <Form key={name} calculator={calculator} given={given} />;
  return (
    <main>
      <h1 className="answer">{all === null ? "Opening the calculator." : `No calculator is called ${name}.`}</h1>
      {all !== null && (
        <p className="acts">
          <Link className="act main" to="/slate">
            All calculators
          </Link>
        </p>
      )}
    </main>
  );
};
