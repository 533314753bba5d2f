import { useEffect, useState } from "react";
import { flushSync } from "react-dom";

const paper = "print";

/** Whether the page is being put on paper. The change is drawn before the paper is: a printer waits for nobody. */
export const usePrinting = (): boolean => {
  const [printing, setPrinting] = useState(() => window.matchMedia(paper).matches);
  useEffect(() => {
    const query = window.matchMedia(paper);
    const set = (now: boolean) => (): void => flushSync(() => setPrinting(now));
    const [begin, end] = [set(true), set(false)];
    const change = (): void => flushSync(() => setPrinting(query.matches));
    window.addEventListener("beforeprint", begin);
    window.addEventListener("afterprint", end);
    query.addEventListener("change", change);
    return () => {
      window.removeEventListener("beforeprint", begin);
      window.removeEventListener("afterprint", end);
      query.removeEventListener("change", change);
    };
  }, []);
  return printing;
};
