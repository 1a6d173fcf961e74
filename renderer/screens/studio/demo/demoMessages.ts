export interface DemoRequest {
  /** ISO 8601 in UTC. */
  readonly now: string;
  /** IANA name. */
  readonly zone: string;
}

export type DemoAnswer =
  | { readonly kind: "progress"; readonly done: number; readonly of: number }
  | { readonly kind: "loaded" }
  | { readonly kind: "failed"; readonly reason: string };
