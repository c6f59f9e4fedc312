import { expect, test } from 'vitest';
import { terminalLine } from '../../server/terminal-line.ts';

const atMs = new Date(2031, 4, 6, 7, 8, 9).getTime();

test.each([
  [{ level: 30, time: atMs, msg: 'took the certificate' }, '07:08:09 took the certificate\n'],
  [{ level: 40, time: atMs, msg: 'the disk is nearly full' }, '07:08:09 warning: the disk is nearly full\n'],
  [
    { level: 50, time: atMs, msg: 'closing failed', err: { message: 'gone' } },
    '07:08:09 error: closing failed (gone)\n',
  ],
])('terminalLine() of %o', (line, text) => {
  expect(terminalLine(`${JSON.stringify(line)}\n`)).toBe(text);
});

test('terminalLine() gives what is no line of the log as it came', () => {
  expect(terminalLine('plain\n')).toBe('plain\n');
  expect(terminalLine('{"a":1}\n')).toBe('{"a":1}\n');
});
