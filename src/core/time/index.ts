export * from "./civil.ts";
export * from "./column.ts";
export type { Instant, Span } from "./instant.ts";
export { offsetFromText, textFromOffset } from "./offset.ts";
export * from "./rfc3339.ts";
export * from "./zone-clock.ts";
export { nearZoneNames } from "./zone-name.ts";
