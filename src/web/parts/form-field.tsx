import type { ReactElement } from "react";

/** A labelled field of a form; its fault stands above it and is read out with it. */
export const FormField = ({
  id,
  label,
  fault,
  children,
}: {
  readonly id: string;
  readonly label: string;
  readonly fault?: string | undefined;
  readonly children: ReactElement;
}): ReactElement => (
  <div className={fault === undefined ? "field" : "field wrong"}>
    <label htmlFor={id}>{label}</label>
    {fault !== undefined && (
      <p className="error" id={`${id}-fault`}>
        {fault}
      </p>
    )}
    {children}
  </div>
);

/** What is wrong in a form, each a link to its field. */
export const FaultSummary = ({
  faults,
}: {
  readonly faults: readonly { readonly id: string; readonly says: string }[];
}): ReactElement | null => {
  if (faults.length === 0) return null;
  return (
    <div className="error" role="alert">
      {faults.map(({ id, says }) => (
        <p key={id}>
          <a
            href={`#${id}`}
            onClick={(event) => {
              event.preventDefault();
              document.getElementById(id)?.focus();
            }}
          >
            {says}
          </a>
        </p>
      ))}
    </div>
  );
};

export interface Signed {
  readonly by: string;
  readonly reason: string;
}

export const signFaults = ({ by, reason }: Signed, id: string): readonly { readonly id: string; readonly says: string }[] => [
  ...(by.trim() === "" ? [{ id: `${id}-by`, says: "Enter the name of the person who says so" }] : []),
  ...(reason.trim() === "" ? [{ id: `${id}-reason`, says: "Enter the reason, for example: in the cradle, log of the lamp room" }] : []),
];

/** Who says so, and why: nothing that changes an outcome goes without. */
export const SignFields = ({
  id,
  signed,
  faults,
  alter,
}: {
  readonly id: string;
  readonly signed: Signed;
  readonly faults: readonly { readonly id: string; readonly says: string }[];
  readonly alter: (part: Partial<Signed>) => void;
}): ReactElement => {
  const faultAt = (field: string): string | undefined => faults.find((one) => one.id === field)?.says;
  return (
    <>
      <FormField id={`${id}-by`} label="Who says so" fault={faultAt(`${id}-by`)}>
        <input id={`${id}-by`} autoComplete="name" value={signed.by} onChange={(event) => alter({ by: event.target.value })} />
      </FormField>
      <FormField id={`${id}-reason`} label="Why" fault={faultAt(`${id}-reason`)}>
        <input id={`${id}-reason`} value={signed.reason} onChange={(event) => alter({ reason: event.target.value })} />
      </FormField>
    </>
  );
};
