import { inCode, type Message } from '../../../shared/messages/message.ts';

/** The file cannot be read as a table. */
export class CsvError extends Error {
  override readonly name = 'CsvError';
  constructor(
    /** Why, and what to do. */
    readonly said: Message,
    options?: ErrorOptions,
  ) {
    super(inCode(said), options);
  }
}
