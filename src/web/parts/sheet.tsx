import { type ReactElement, type ReactNode, useEffect, useRef } from "react";

/**
 * The side sheet. It opens over nothing that caused it: the figure stays at the left, and gets the focus back when
 * the sheet closes. The next figure replaces its content without moving it.
 */
export const Sheet = ({
  heading,
  label,
  onClose,
  children,
}: {
  readonly heading: ReactNode;
  readonly label: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}): ReactElement => {
  const head = useRef<HTMLHeadingElement>(null);
  const opener = useRef<Element | null>(null);
  useEffect(() => {
    opener.current = document.activeElement;
    return () => {
      if (opener.current instanceof HTMLElement && opener.current.isConnected) opener.current.focus();
    };
  }, []);
  // A new subject takes the focus; `label` is what tells subjects apart.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the label is the trigger.
  useEffect(() => head.current?.focus(), [label]);
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.key === "Escape" && document.querySelector("dialog[open]") === null) onClose();
    };
    document.addEventListener("keydown", onKey);
    return () => document.removeEventListener("keydown", onKey);
  }, [onClose]);
  return (
    <aside className="sheet" id="grounds" aria-label={label}>
      <header>
        <h2 ref={head} tabIndex={-1}>
          {heading}
        </h2>
        <button type="button" className="close" onClick={onClose}>
          Close <kbd>Esc</kbd>
        </button>
      </header>
      {children}
    </aside>
  );
};
