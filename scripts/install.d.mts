/** The oldest Node that the tool chain runs on. */
export declare const oldestNode: string;

/** True if `version` ("20.19.1") is `oldest` or newer. */
export declare function isNewEnough(version: string, oldest: string): boolean;

/** A lock file, as far as it is read here: packages by their path. */
export interface LockFile {
  readonly packages: Readonly<
    Record<
      string,
      {
        readonly version?: string;
        readonly optional?: boolean;
        readonly devOptional?: boolean;
        readonly inBundle?: boolean;
      }
    >
  >;
}

/** The paths of the packages that `locked` asks for and `installed` does not have in that version. */
export declare function missingPackages(locked: LockFile, installed: LockFile): readonly string[];
