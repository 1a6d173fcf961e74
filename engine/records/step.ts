/** Makes of a row of one version the same row in the next; the one it is given stays as it was. */
export type Step = (row: Readonly<Record<string, unknown>>) => Readonly<Record<string, unknown>>;
