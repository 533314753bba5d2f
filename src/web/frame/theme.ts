import { remember, remembered } from "../parts/remember.ts";

/** "system" follows the machine; the others stay as chosen in this browser. */
export const themes = ["system", "light", "dark", "sunlight"] as const;
export type Theme = (typeof themes)[number];

export const themeNow = (): Theme => themes.find((theme) => theme === remembered("theme")) ?? "system";

export const wear = (theme: Theme): void => {
  const root = document.documentElement;
  root.classList.remove(...themes);
  if (theme !== "system") root.classList.add(theme);
};

export const chooseTheme = (theme: Theme): void => {
  remember("theme", theme === "system" ? null : theme);
  wear(theme);
};
