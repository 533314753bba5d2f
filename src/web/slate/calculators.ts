import { useEffect, useState } from "react";
import type { CalculatorDescription } from "../../work/slate/description.ts";
import { desk } from "../desk/desk.ts";

let known: readonly CalculatorDescription[] | null = null;

/** The calculators describe themselves; the worker has them with their computing. */
export const useCalculators = (): readonly CalculatorDescription[] | null => {
  const [all, setAll] = useState(known);
  useEffect(() => {
    if (known !== null) return;
    void desk()
      .ask({ type: "calculators" })
      .reply.then((described) => {
        known = described;
        setAll(described);
      });
  }, []);
  return all;
};
