/**
 * From instants to the studio's own days and times. An instant is ISO 8601 in UTC; a zone is an IANA name, with its daylight
 * saving and its history. Source of the rules: the IANA time zone database, as the running platform holds it, through
 * Temporal (ECMA-262 stage 4 proposal).
 */
import * as Calendar from "temporal-polyfill/fns/Calendar";
import * as Instant from "temporal-polyfill/fns/Instant";
import * as PlainDateTime from "temporal-polyfill/fns/PlainDateTime";
import * as ZonedDateTime from "temporal-polyfill/fns/ZonedDateTime";
import type { Seconds } from "../units/index.ts";

/**
 * The day of the calendar it was there.
 *
 * @throws RangeError for a text that is no instant, or a zone nobody knows.
 * @example
 * localDay("2026-03-02T23:30:00.000Z", "Europe/Vienna") // => "2026-03-03"
 */
export function localDay(instant: string, zone: string): string {
  return there(instant, zone).slice(0, "2026-03-02".length);
}

/**
 * The time of day it was there, to the minute begun.
 *
 * @throws RangeError as {@link localDay}.
 * @example
 * localTime("2026-03-02T23:30:00.000Z", "Europe/Vienna") // => "00:30"
 */
export function localTime(instant: string, zone: string): string {
  return there(instant, zone).slice("2026-03-02T".length, "2026-03-02T00:30".length);
}

/**
 * The instant of a day and time there. A time that the clocks skip in spring is as much later; of one that comes twice in
 * autumn it is the first (RFC 5545, section 3.3.5).
 *
 * @param day "2026-03-29"
 * @param time "15:30"
 * @throws RangeError as {@link localDay}.
 * @example
 * instantOf("2026-03-29", "02:30", "Europe/Vienna") // => "2026-03-29T01:30:00.000Z"
 */
export function instantOf(day: string, time: string, zone: string): string {
  const written = PlainDateTime.fromString(`${day}T${time}`, Calendar.getISO);
  const zoned = PlainDateTime.toZonedDateTime(written, zone, { disambiguation: "compatible" });
  return printed(ZonedDateTime.toInstant(zoned));
}

/**
 * The instant so many seconds later, to the millisecond.
 *
 * @example
 * instantAfter("2026-03-02T15:30:00.000Z", 90.25) // => "2026-03-02T15:31:30.250Z"
 */
export function instantAfter(instant: string, seconds: Seconds): string {
  return printed(Instant.addMilliseconds(Instant.fromString(instant), Math.round(seconds * 1000)));
}

/**
 * Seconds from one instant to another; negative when `to` is before `from`.
 *
 * @example
 * secondsBetween("2026-03-02T15:30:00.000Z", "2026-03-02T15:31:30.250Z") // => 90.25
 */
export function secondsBetween(from: string, to: string): Seconds {
  return Instant.diffMilliseconds(Instant.fromString(from), Instant.fromString(to)) / 1000;
}

/** Whether this platform knows the zone. */
export function isZone(zone: string): boolean {
  try {
    there("2000-01-01T00:00:00.000Z", zone);
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}

function there(instant: string, zone: string): string {
  return PlainDateTime.toString(
    ZonedDateTime.toPlainDateTime(Instant.toZonedDateTimeISO(Instant.fromString(instant), zone)),
    { fractionalSecondDigits: 3 },
  );
}

function printed(instant: Instant.Record): string {
  return Instant.toString(instant, { fractionalSecondDigits: 3 });
}
