import { describe, expect, test } from 'vitest';
import { type CsvRow, readCsvTable } from '../../../server/services/import/csv-table.ts';

async function rowsOf(text: string): Promise<CsvRow[]> {
  const rows: CsvRow[] = [];
  for await (const row of readCsvTable(text).rows()) rows.push(row);
  return rows;
}

describe('readCsvTable()', () => {
  test('no character is cut wherever a piece of a long file ends', async () => {
    // Leaves are two halves in memory and four octets in the file; every length before them puts a cut at another place.
    for (const shift of [0, 1, 2, 3]) {
      const notes = Array.from({ length: 1500 }, (_, i) => `${'x'.repeat(shift)}🍂🍁é${i}🍂`);
      const rows = await rowsOf(['note', ...notes].map((note) => `${note},🌿🌿🌿🌿🌿🌿🌿🌿`).join('\n'));
      expect(rows.map(({ cells }) => cells[0])).toEqual(notes);
      expect(rows.every(({ cells }) => cells[1] === '🌿🌿🌿🌿🌿🌿🌿🌿')).toBe(true);
    }
  });

  test('cells may hold line ends and delimiters, and a row is named by the line it ends on', async () => {
    const rows = await rowsOf('\uFEFFtime;note\r\n1;"steam;\r\nmuch of it"\r\n\r\n2;"he said ""turn"""\r\n');
    expect(rows).toEqual([
      { line: 3, cells: ['1', 'steam;\r\nmuch of it'] },
      { line: 5, cells: ['2', 'he said "turn"'] },
    ]);
  });

  test('headings that come twice are told apart, and the delimiter is the one that parts the heading most', () => {
    const table = readCsvTable('time\ttemp\ttemp\n1\t2,5\t3,5');
    expect([table.headings, table.delimiter, table.decimalComma]).toEqual([['time', 'temp', 'temp (2)'], '\t', true]);
    expect(readCsvTable('"a;b;c",d\n1,2').delimiter).toBe(',');
  });
});
