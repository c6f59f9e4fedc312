/**
 * Reads server-sent events out of a stream that arrives in pieces.
 *
 * The browser's own reader of such streams cannot send a bearer token, so the page reads them itself. Source: WHATWG
 * HTML, section 9.2.6 "Interpreting an event stream".
 */
export interface StreamEvent {
  readonly event: string;
  readonly data: string;
}

/** @returns a function that takes the next piece of text and gives the events it completed. */
export function startSseParser(): (piece: string) => StreamEvent[] {
  let rest = '';
  let event = '';
  let data: string[] = [];

  return (piece) => {
    const done: StreamEvent[] = [];
    rest += piece;
    // A carriage return at the very end may be half of a CRLF: it waits for the next piece.
    const lines = rest.split(/\r\n|\n|\r(?!$)/);
    rest = lines.pop() ?? '';
    for (const line of lines) {
      if (line === '') {
        if (data.length > 0) done.push({ event: event || 'message', data: data.join('\n') });
        event = '';
        data = [];
        continue;
      }
      const [field, value] = splitField(line);
      if (field === 'event') event = value;
      else if (field === 'data') data.push(value);
    }
    return done;
  };
}

function splitField(line: string): [string, string] {
  const colon = line.indexOf(':');
  if (colon === -1) return [line, ''];
  const value = line.slice(colon + 1);
  return [line.slice(0, colon), value.startsWith(' ') ? value.slice(1) : value];
}
