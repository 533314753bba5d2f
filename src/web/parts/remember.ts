/**
 * Small things that this browser keeps between visits: the theme, whether single keys act, and confirmed mappings;
 * recordings are kept in `desk/kept.ts`. A browser may refuse to keep anything (private windows): then the choice lasts for this page.
 */
const kept = new Map<string, string>();

export const remember = (key: string, value: string | null): void => {
  if (value === null) kept.delete(key);
  else kept.set(key, value);
  try {
    if (value === null) localStorage.removeItem(`lamproom/${key}`);
    else localStorage.setItem(`lamproom/${key}`, value);
  } catch {
    // This browser keeps nothing between visits: `kept` holds the choice for as long as this page is open.
  }
};

export const remembered = (key: string): string | null => {
  const now = kept.get(key);
  if (now !== undefined) return now;
  try {
    return localStorage.getItem(`lamproom/${key}`);
  } catch {
    // Storage is shut off: what was chosen on this page is all there is.
    return null;
  }
};
