/** The fuses of the packed program, each on or off. */
export declare const fuses: Readonly<Record<string, boolean>>;
