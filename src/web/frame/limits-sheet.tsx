import { useNavigate } from "@tanstack/react-router";
import { type ReactElement, useCallback, useEffect, useState } from "react";
import type { Limit } from "../../core/gas/limit.ts";
import { valueText } from "../../report/figure.ts";
import { kindName, sourceLine } from "../../report/limit-words.ts";
import { desk } from "../desk/desk.ts";
import type { LimitsFound } from "../desk/protocol.ts";
import { shapeOf } from "../parts/limit-shape.ts";
import { Marked } from "../parts/marked.tsx";
import { Sheet } from "../parts/sheet.tsx";

const Row = ({ limit }: { readonly limit: Limit }): ReactElement => {
  const shape = shapeOf(limit);
  return (
    <tr>
      <td>{limit.regime}</td>
      <td>
        {kindName(limit.kind, limit.averagingMinutes)}
        <br />
        <span className="src">{sourceLine(shape)}</span>
      </td>
      <td className="num">
        <Marked text={shape.value === null ? "no figure of its own" : valueText(shape.value, shape.unit)} />
        {limit.mark === "memory" && " (memory)"}
      </td>
    </tr>
  );
};

/** All limits of one gas, every regime, each with its source and mark. */
export const LimitsSheet = ({ gas }: { readonly gas: string }): ReactElement | null => {
  const navigate = useNavigate();
  const [found, setFound] = useState<LimitsFound | null>(null);
  useEffect(() => {
    void desk()
      .ask({ type: "limits", text: gas })
      .reply.then((all) => setFound(all.find((one) => one.gas === gas) ?? null));
  }, [gas]);
  const close = useCallback(() => void navigate({ to: ".", hash: "" }), [navigate]);
  if (found === null) return null;
  return (
    <Sheet heading={<Marked text={`Limits: ${found.name}`} />} label={`Limits of ${found.name}`} onClose={close}>
      <table className="dense">
        <thead>
          <tr>
            <th scope="col">Regime</th>
            <th scope="col">Limit</th>
            <th scope="col" className="num">
              Value
            </th>
          </tr>
        </thead>
        <tbody>
          {found.limits.map((limit) => (
            <Row key={limit.id} limit={limit} />
          ))}
        </tbody>
      </table>
      <p className="small quiet">Local law and the text in force decide. A figure marked memory was not checked against its text.</p>
    </Sheet>
  );
};
