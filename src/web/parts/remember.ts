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

/** Forgets every key that begins so; gives how many there were. */
export const forgetUnder = (start: string): number => {
  const keys = new Set([...kept.keys(), ...keysStored()].filter((key) => key.startsWith(start)));
  for (const key of keys) remember(key, null);
  return keys.size;
};

const keysStored = (): readonly string[] => {
  try {
    return Object.keys(localStorage).flatMap((key) => (key.startsWith("lamproom/") ? [key.slice("lamproom/".length)] : []));
  } catch {
    // Storage is shut off: what was chosen on this page is all there is.
    return [];
  }
};
