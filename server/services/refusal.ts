/** A "no" thrown from below a route, with all that the answer needs. */
export class Refusal extends Error {
  override readonly name = 'Refusal';
  constructor(
    readonly status: number,
    /** One sentence a person can act on. */
    detail: string,
    readonly more: {
      /** JSON Pointer of the field at fault. */
      readonly pointer?: string;
      readonly retryAfterS?: number;
    } = {},
  ) {
    super(detail);
  }
}
