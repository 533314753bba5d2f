/** What the screens of the book show, made from what core answers. */
export { entryLine, type LineGrounds } from "./entry-line.ts";
export { entrySays, readingText, shownText } from "./entry-says.ts";
export { gasView } from "./gas-view.ts";
export { naturalOrder } from "./natural-order.ts";
export { questionView } from "./question-view.ts";
export { roomView } from "./room-view.ts";
export { knownName, thingName } from "./thing-names.ts";
export { type Around, benchOrder, todayView } from "./today-view.ts";
export type * from "./views.ts";
