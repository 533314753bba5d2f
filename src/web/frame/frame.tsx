import { Link, Outlet, useLocation, useNavigate } from "@tanstack/react-router";
import { type ReactElement, useCallback, useEffect, useState } from "react";
import { useSingleKey } from "../parts/keys.ts";
import { MarkSheet } from "../parts/marks.tsx";
import { DeskLine } from "./desk-line.tsx";
import { FindBox } from "./find-box.tsx";
import { HelpDialog } from "./help-dialog.tsx";
import { LimitsSheet } from "./limits-sheet.tsx";
import { chooseTheme, type Theme, themeNow, themes } from "./theme.ts";

const screens = [
  { to: "/recordings", name: "Recordings" },
  { to: "/slate", name: "Slate" },
] as const;

const themeWords: Readonly<Record<Theme, string>> = { system: "System", light: "Light", dark: "Dark", sunlight: "Sunlight" };

const ThemeSwitch = (): ReactElement => {
  const [theme, setTheme] = useState(themeNow);
  return (
    <label className="theme">
      <span className="hid">Theme</span>
      <select
        value={theme}
        onChange={(event) => {
          const chosen = themes.find((one) => one === event.target.value) ?? "system";
          chooseTheme(chosen);
          setTheme(chosen);
        }}
      >
        {themes.map((one) => (
          <option key={one} value={one}>
            {themeWords[one]}
          </option>
        ))}
      </select>
    </label>
  );
};

/** A new page takes the focus to its first sentence, so that a screen reader says the answer. */
const useFocusOnArrival = (path: string): void => {
  const [first, setFirst] = useState(path);
  useEffect(() => {
    if (first === path) return;
    setFirst(path);
    window.scrollTo(0, 0);
    const answer = document.querySelector<HTMLElement>("h1");
    answer?.setAttribute("tabindex", "-1");
    answer?.focus({ preventScroll: true });
  }, [path, first]);
};

/** Line 1: works, find box, what becomes of the readings, theme. Line 2: the screens that exist, as words. */
export const Frame = (): ReactElement => {
  const [help, setHelp] = useState(false);
  const navigate = useNavigate();
  const path = useLocation({ select: (location) => location.pathname });
  const hash = useLocation({ select: (location) => location.hash });
  useFocusOnArrival(path);
  useSingleKey(
    "?",
    useCallback(() => setHelp(true), []),
  );
  return (
    <>
      <MarkSheet />
      <a className="skip" href="#page">
        To the page
      </a>
      <header className="top">
        <Link className="works" to="/recordings">
          Lamproom
        </Link>
        <FindBox />
        <p className="stays">Nothing leaves this machine</p>
        <p className="tools">
          <button type="button" className="word" onClick={() => setHelp(true)}>
            Keys and words
          </button>
          <ThemeSwitch />
        </p>
      </header>
      <nav className="screens" aria-label="Screens">
        {screens.map((screen) => (
          <Link key={screen.to} to={screen.to} {...(path.startsWith(screen.to) ? { "aria-current": "page" as const } : {})}>
            {screen.name}
          </Link>
        ))}
      </nav>
      <DeskLine />
      <div id="page">
        <Outlet />
      </div>
      {hash.startsWith("limits/") && <LimitsSheet gas={decodeURIComponent(hash.slice("limits/".length))} />}
      {(help || hash === "words") && (
        <HelpDialog
          onClose={() => {
            setHelp(false);
            if (hash === "words") void navigate({ to: ".", hash: "" });
          }}
        />
      )}
    </>
  );
};
