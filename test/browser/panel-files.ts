/** Recordings made for the panels, a row a minute; invented. */
export interface MadeFile {
  readonly name: string;
  readonly text: string;
}

const clockAt = (minute: number): string => new Date(Date.UTC(2026, 2, 4, 6, minute)).toISOString().replace(".000Z", "Z");

const made = (name: string, minutes: number, level: (minute: number) => string): MadeFile => ({
  name,
  text: `time,CO (ppm)\n${Array.from({ length: minutes }, (_, minute) => `${clockAt(minute)},${level(minute)}`).join("\n")}\n`,
});

/** Over the range of the sensor for two minutes in a quiet shift: limits crowd near the foot of the panel. */
export const overRange = made("over.csv", 481, (minute) => (minute === 100 || minute === 101 ? ">500" : "10"));

/** Restless all shift long, so that there is hardly a free place in the panel, with a hole in it. */
export const restless = made("restless.csv", 481, (minute) => (minute > 200 && minute < 260 ? "" : String((minute * 37) % 90)));

/** A day and an hour: longer than a shift can be. */
export const overlong = made("long.csv", 1501, () => "20");

/** A shift that the instrument did not last: readings to 12:30. Low all the while but for a rise. */
export const endsEarly = made("early.csv", 391, (minute) => (minute > 180 && minute < 220 ? "45" : "10"));
