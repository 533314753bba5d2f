import { type ReactElement, useEffect, useId, useState } from "react";
import { unitText } from "../../report/index.ts";
import type { Field } from "../../work/slate/description.ts";
import { desk } from "../desk/desk.ts";
import { Marked } from "../parts/marked.tsx";
import { type Draft, draftOf } from "./drafts.ts";

const useGasNames = (wanted: boolean): readonly { readonly gas: string; readonly name: string }[] => {
  const [gases, setGases] = useState<readonly { readonly gas: string; readonly name: string }[]>([]);
  useEffect(() => {
    if (wanted) void desk().ask({ type: "limits", text: "" }).reply.then(setGases);
  }, [wanted]);
  return gases;
};

const Bare = ({
  field,
  id,
  value,
  described,
  onChange,
}: {
  readonly field: Field;
  readonly id: string;
  readonly value: string;
  readonly described: string;
  readonly onChange: (value: string) => void;
}): ReactElement => {
  const gases = useGasNames(field.type === "gas");
  if (field.type === "choice") {
    return (
      <select id={id} aria-describedby={described} value={value} onChange={(event) => onChange(event.target.value)}>
        {field.choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.title}
          </option>
        ))}
      </select>
    );
  }
  return (
    <>
      <span className="boxed">
        <input
          id={id}
          aria-describedby={described}
          value={value}
          autoComplete="off"
          inputMode={field.type === "number" ? "decimal" : "text"}
          {...(field.type === "gas" ? { list: `${id}-gases` } : {})}
          onChange={(event) => onChange(event.target.value)}
        />
        {field.type === "number" && field.unit !== null && <span className="u">{unitText(field.unit)}</span>}
      </span>
      {field.type === "gas" && (
        <datalist id={`${id}-gases`}>
          {gases.map((one) => (
            <option key={one.gas} value={one.gas}>
              {one.name}
            </option>
          ))}
        </datalist>
      )}
    </>
  );
};

const Rows = ({
  field,
  path,
  rows,
  wrong,
  onChange,
}: {
  readonly field: Extract<Field, { readonly type: "rows" }>;
  readonly path: string;
  readonly rows: readonly Draft[];
  readonly wrong: { readonly path: string; readonly says: string } | null;
  readonly onChange: (rows: readonly Draft[]) => void;
}): ReactElement => (
  <fieldset className="rows">
    <legend>
      <Marked text={field.title} />
    </legend>
    <p className="small quiet">
      <Marked text={field.says} />
    </p>
    {rows.map((row, place) => (
      // Rows have no name of their own; their place is what they are.
      // biome-ignore lint/suspicious/noArrayIndexKey: see above.
      <div className="row" key={place}>
        {field.fields.map((each) => (
          <FieldInput
            key={each.name}
            field={each}
            path={`${path}/${place}/${each.name}`}
            value={row[each.name] ?? ""}
            wrong={wrong}
            brief={place > 0}
            onChange={(value) => onChange(rows.map((old, at) => (at === place ? { ...old, [each.name]: value } : old)))}
          />
        ))}
        {rows.length > Math.max(field.fewest, 1) && (
          <button
            type="button"
            className="word"
            aria-label={`Take away row ${place + 1}`}
            onClick={() => onChange(rows.filter((_, at) => at !== place))}
          >
            Take away
          </button>
        )}
      </div>
    ))}
    {rows.length < field.most && (
      <button type="button" className="act" onClick={() => onChange([...rows, draftOf(field.fields, {})])}>
        Add a row
      </button>
    )}
  </fieldset>
);

/** One input of a calculator, made from its description. */
export const FieldInput = ({
  field,
  path,
  value,
  wrong,
  brief = false,
  onChange,
}: {
  readonly field: Field;
  readonly path: string;
  readonly value: string | readonly Draft[];
  readonly wrong: { readonly path: string; readonly says: string } | null;
  /** Later rows do not say again what the first row's field stands for. */
  readonly brief?: boolean;
  readonly onChange: (value: string | readonly Draft[]) => void;
}): ReactElement => {
  const id = useId();
  const isWrong = wrong?.path === path;
  if (field.type === "rows")
    return (
      <Rows field={field} path={path} rows={Array.isArray(value) ? (value as readonly Draft[]) : []} wrong={wrong} onChange={onChange} />
    ); // a rows field holds rows
  return (
    <div className={isWrong ? "field wrong" : "field"}>
      <label htmlFor={id}>
        <Marked text={field.title} />
        {!field.required && field.type !== "choice" && <span className="r"> (may stay blank)</span>}
      </label>
      {isWrong && (
        <p className="error" id={`${id}-says`}>
          {wrong?.says}
        </p>
      )}
      {!isWrong && !brief && (
        <p className="hint" id={`${id}-says`}>
          <Marked text={field.says} />
        </p>
      )}
      <Bare field={field} id={id} value={typeof value === "string" ? value : ""} described={`${id}-says`} onChange={onChange} />
    </div>
  );
};
