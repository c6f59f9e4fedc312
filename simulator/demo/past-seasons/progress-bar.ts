/** How far it is, on one line of a terminal; on paper a line now and then. */
const width = 24;

/** @example barText(6, 24) // => "[######..................] 6 of 24" */
export function barText(done: number, of: number): string {
  const filled = Math.round((width * done) / of);
  return `[${'#'.repeat(filled)}${'.'.repeat(width - filled)}] ${done} of ${of}`;
}

export function progressBar(what: string, out: NodeJS.WriteStream): (done: number, of: number) => void {
  return (done, of) => {
    if (out.isTTY) out.write(`\r${what} ${barText(done, of)}${done === of ? '\n' : ''}`);
    else if (done % 6 === 0 || done === of) out.write(`${what} ${barText(done, of)}\n`);
  };
}
