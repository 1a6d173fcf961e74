/** Reason codes of MQTT 5.0 (OASIS, section 2.4), as far as a room gives them. */
export const REASON = {
  success: 0x00,
  noSubscription: 0x11,
  malformed: 0x81,
  protocolError: 0x82,
  unsupportedVersion: 0x84,
  identifierRefused: 0x85,
  wrongSecret: 0x86,
  notAuthorized: 0x87,
  serverUnavailable: 0x88,
  badAuthentication: 0x8c,
  tooLarge: 0x95,
  tooManyMessages: 0x96,
  tooManyTries: 0x9f,
} as const;
export type Reason = (typeof REASON)[keyof typeof REASON];

/** What MQTT 3.1.1 answers a connection (section 3.2.2.3, codes 0 to 5), in the words of 5.0. */
const OF_RETURN_CODE: readonly Reason[] = [
  REASON.success,
  REASON.unsupportedVersion,
  REASON.identifierRefused,
  REASON.serverUnavailable,
  REASON.wrongSecret,
  REASON.notAuthorized,
];

export function reasonOf(returnCode: number): Reason {
  return OF_RETURN_CODE[returnCode] ?? REASON.notAuthorized;
}
