import { type ReactElement, type ReactNode, useEffect, useRef, useState } from "react";

/** Files may be dropped anywhere on the page; the key does the same for those who do not drag. */
export const DropPlace = ({
  onFiles,
  children,
}: {
  readonly onFiles: (files: readonly File[]) => void;
  readonly children?: ReactNode;
}): ReactElement => {
  const input = useRef<HTMLInputElement>(null);
  const [over, setOver] = useState(false);
  const taken = useRef(onFiles);
  taken.current = onFiles;
  useEffect(() => {
    const onOver = (event: DragEvent): void => {
      event.preventDefault();
      setOver(true);
    };
    const onLeave = (event: DragEvent): void => {
      if (event.relatedTarget === null) setOver(false);
    };
    const onDrop = (event: DragEvent): void => {
      event.preventDefault();
      setOver(false);
      taken.current([...(event.dataTransfer?.files ?? [])]);
    };
    document.addEventListener("dragover", onOver);
    document.addEventListener("dragleave", onLeave);
    document.addEventListener("drop", onDrop);
    return () => {
      document.removeEventListener("dragover", onOver);
      document.removeEventListener("dragleave", onLeave);
      document.removeEventListener("drop", onDrop);
    };
  }, []);
  return (
    <div className={over ? "drop over" : "drop"}>
      <p>{over ? "Let go: each file is read on its own." : "Drop files anywhere on this page."}</p>
      <p className="acts">
        <button type="button" className="act main" onClick={() => input.current?.click()}>
          Choose files
        </button>
        {children}
      </p>
      <input
        ref={input}
        type="file"
        multiple
        hidden
        aria-label="Files to read"
        onChange={(event) => {
          taken.current([...(event.target.files ?? [])]);
          // The same file may be chosen again.
          event.target.value = "";
        }}
      />
    </div>
  );
};
