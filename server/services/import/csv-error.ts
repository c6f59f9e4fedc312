/** The file cannot be read as a table; the message says why. */
export class CsvError extends Error {
  override readonly name = 'CsvError';
}
