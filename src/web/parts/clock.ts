import { civilFromLocal, localAt, type ZoneClock, zoneClock } from "../../core/time/index.ts";

/**
 * Times for people, on the clock of the recording: the answer carries instants in UTC, or durations from the start
 * where the file only counts. The zone is named once a page, so the clock times stand bare.
 */
export interface Clock {
  readonly zone: string | null;
  readonly elapsed: boolean;
  readonly ms: (text: string) => number;
  /** As the answer writes it. */
  readonly text: (ms: number) => string;
  /** 10:44:50, or 10:44 where no seconds are needed. */
  readonly time: (ms: number, seconds?: boolean) => string;
  readonly date: (ms: number) => string;
  /** Milliseconds east of UTC; 0 for elapsed times. */
  readonly offset: (ms: number) => number;
}

const two = (value: number): string => String(value).padStart(2, "0");
const days = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"] as const;
const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;
const dayMs = 86_400_000;

const elapsedMs = (text: string): number => {
  const parts = /^(-)?PT(?:(\d+)H)?(?:(\d+)M)?(?:([\d.]+)S)?$/.exec(text);
  if (parts === null) return Number.NaN;
  const [, minus, h = "0", m = "0", s = "0"] = parts;
  return (minus === "-" ? -1 : 1) * (Number(h) * 3_600_000 + Number(m) * 60_000 + Math.round(Number(s) * 1000));
};

/** Elapsed times read as hours, minutes and seconds from the start; 26:03:10 may pass a day. */
const elapsedTime = (ms: number, seconds: boolean): string => {
  const whole = Math.floor(Math.abs(ms) / 1000);
  const text = `${two(Math.floor(whole / 3600))}:${two(Math.floor(whole / 60) % 60)}${seconds ? `:${two(whole % 60)}` : ""}`;
  return ms < 0 ? `\u2212${text}` : text;
};

const elapsedClock: Clock = {
  zone: null,
  elapsed: true,
  ms: elapsedMs,
  text: (ms) => `PT${ms / 1000}S`,
  time: (ms, seconds = true) => elapsedTime(ms, seconds),
  date: (ms) => `${elapsedTime(ms, true)} from the start`,
  offset: () => 0,
};

const wallClock = (clock: ZoneClock): Clock => ({
  zone: clock.zone,
  elapsed: false,
  ms: (text) => Date.parse(text),
  text: (ms) => new Date(ms).toISOString(),
  time: (ms, seconds = true) => {
    const local = ((localAt(ms, clock) % dayMs) + dayMs) % dayMs;
    const whole = Math.floor(local / 1000);
    return `${two(Math.floor(whole / 3600))}:${two(Math.floor(whole / 60) % 60)}${seconds ? `:${two(whole % 60)}` : ""}`;
  },
  date: (ms) => {
    const local = localAt(ms, clock);
    const civil = civilFromLocal(local);
    const weekday = ((Math.floor(local / dayMs) % 7) + 11) % 7;
    return `${days[weekday]} ${civil.day} ${months[civil.month - 1]} ${civil.year}`;
  },
  offset: (ms) => clock.offsetAt(ms),
});

export const clockOf = (
  basis: { readonly kind: "instants"; readonly zone: string | null } | { readonly kind: "elapsed" } | null,
): Clock => {
  if (basis === null || basis.kind === "elapsed") return elapsedClock;
  const clock = zoneClock(basis.zone ?? "UTC");
  if (!clock.ok) throw new Error(`broken promise: the reader checked the zone ${basis.zone}`);
  return wallClock(clock.value);
};
