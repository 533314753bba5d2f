import { useEffect } from "react";
import { remember, remembered } from "./remember.ts";

export const singleKeysAct = (): boolean => remembered("single-keys") !== "off";
export const setSingleKeys = (on: boolean): void => remember("single-keys", on ? null : "off");

const typesText = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && (target.isContentEditable || /^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName));

/** Runs an act on one key anywhere on the page, but not while text is typed, nor when single keys are switched off. */
export const useSingleKey = (key: string, act: () => void): void => {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.key !== key || event.ctrlKey || event.metaKey || event.altKey || typesText(event.target) || !singleKeysAct()) return;
      event.preventDefault();
      act();
    };
    document.addEventListener("keydown", onKey);
    return () => document.removeEventListener("keydown", onKey);
  }, [key, act]);
};
