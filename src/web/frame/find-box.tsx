import { useNavigate } from "@tanstack/react-router";
import { type KeyboardEvent, type ReactElement, useCallback, useEffect, useId, useRef, useState } from "react";
import { desk } from "../desk/desk.ts";
import { useShelf } from "../desk/shelf.ts";
import { useSingleKey } from "../parts/keys.ts";
import { Marked } from "../parts/marked.tsx";
import { useCalculators } from "../slate/calculators.ts";

interface Found {
  readonly key: string;
  readonly sort: "Recording" | "Calculator" | "Limits";
  readonly name: string;
  readonly go: () => void;
}

const holds = (text: string, part: string): boolean => text.toLowerCase().includes(part.toLowerCase());

/** Gases whose limits stand in the tables; the tables are with the worker. */
const useLimits = (text: string): readonly { readonly gas: string; readonly name: string }[] => {
  const [found, setFound] = useState<readonly { readonly gas: string; readonly name: string }[]>([]);
  useEffect(() => {
    let wanted = true;
    if (text.trim() === "") setFound([]);
    else
      void desk()
        .ask({ type: "limits", text })
        .reply.then((limits) => wanted && setFound(limits));
    return () => {
      wanted = false;
    };
  }, [text]);
  return found;
};

const useFound = (text: string, done: () => void): readonly Found[] => {
  const navigate = useNavigate();
  const shelf = useShelf();
  const limits = useLimits(text);
  const calculators = useCalculators() ?? [];
  if (text.trim() === "") return [];
  const part = text.trim();
  return [
    ...shelf
      .filter((one) => holds(one.file.name, part))
      .map(
        (one): Found => ({
          key: `r/${one.id}`,
          sort: "Recording",
          name: one.file.name,
          go: () => void navigate({ to: "/recordings/$id", params: { id: one.id } }),
        }),
      ),
    ...limits.slice(0, 8).map(
      (one): Found => ({
        key: `l/${one.gas}`,
        sort: "Limits",
        name: one.name,
        go: () => void navigate({ to: ".", hash: `limits/${one.gas}` }),
      }),
    ),
    ...calculators
      .filter((one) => holds(`${one.title} ${one.id}`, part))
      .map(
        (one): Found => ({
          key: `s/${one.id}`,
          sort: "Calculator",
          name: one.title,
          go: () => void navigate({ to: "/slate/$name", params: { name: one.id }, search: {} }),
        }),
      ),
  ].map((one) => ({
    ...one,
    go: () => {
      one.go();
      done();
    },
  }));
};

const NothingFound = ({ text, clear }: { readonly text: string; readonly clear: () => void }): ReactElement => (
  <p className="found" role="status">
    Nothing here holds “{text}”.{" "}
    <button type="button" className="word" onClick={clear}>
      Clear
    </button>
  </p>
);

/** Always there, always ready: what is typed or scanned finds a recording on this page, a calculator, or a gas's limits. */
export const FindBox = (): ReactElement => {
  const [text, setText] = useState("");
  const [at, setAt] = useState(0);
  const input = useRef<HTMLInputElement>(null);
  const list = useId();
  const found = useFound(text, () => setText(""));
  useSingleKey(
    "/",
    useCallback(() => input.current?.focus(), []),
  );
  const chosen = Math.min(at, found.length - 1);
  const onKey = (event: KeyboardEvent): void => {
    if (event.key === "Escape") setText("");
    else if (event.key === "Enter") found[chosen]?.go();
    else if (event.key === "ArrowDown") setAt(Math.min(chosen + 1, found.length - 1));
    else if (event.key === "ArrowUp") setAt(Math.max(chosen - 1, 0));
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <div className="finder">
      <label className="find">
        <span className="hid">Find</span>
        <input
          ref={input}
          role="combobox"
          aria-expanded={text.trim() !== ""}
          aria-controls={list}
          aria-activedescendant={found.length > 0 ? `${list}-${chosen}` : undefined}
          aria-autocomplete="list"
          autoComplete="off"
          placeholder="Type a gas, a file or a calculator"
          value={text}
          onChange={(event) => {
            setText(event.target.value);
            setAt(0);
          }}
          onKeyDown={onKey}
        />
        <kbd>/</kbd>
      </label>
      <div id={list} role="listbox" aria-label="Found" className="found" hidden={found.length === 0}>
        {found.map((one, index) => (
          // The keys act through the box; the pointer acts here.
          // biome-ignore lint/a11y/useKeyWithClickEvents: the combobox above carries the keys.
          <div key={one.key} id={`${list}-${index}`} role="option" tabIndex={-1} aria-selected={index === chosen} onClick={one.go}>
            <Marked text={one.name} />
            <span className="r">{one.sort}</span>
          </div>
        ))}
      </div>
      {text.trim() !== "" && found.length === 0 && <NothingFound text={text.trim()} clear={() => setText("")} />}
    </div>
  );
};
