import { inCode, type Message } from '../shared/messages/message.ts';
import type { FieldProblem } from './field-problem.ts';

/** A "no" thrown from below a route, with all that the answer needs. */
export class Refusal extends Error {
  override readonly name = 'Refusal';
  constructor(
    readonly status: number,
    /** What is wrong and what to do; each reader gets it in their own words. */
    readonly said: Message,
    readonly more: {
      /** JSON Pointer of the field at fault. */
      readonly pointer?: string;
      /** Where there are several. */
      readonly fields?: readonly FieldProblem[];
      readonly retryAfterS?: number;
    } = {},
  ) {
    super(inCode(said));
  }
}
