/** What every bench prints above its last line. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : (upper + (sorted[middle - 1] ?? Number.NaN)) / 2;
}

export const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** Rows of name, figure, and what the figure is. */
export function printTable(rows: readonly (readonly [name: string, figure: number, unit: string])[]): void {
  const width = Math.max(...rows.map(([name]) => name.length));
  for (const [name, figure, unit] of rows) {
    console.log(`${name.padEnd(width + 2)}${shown(figure).padStart(12)} ${unit}`);
  }
}

function shown(figure: number): string {
  return Math.abs(figure) >= 1000 ? Math.round(figure).toLocaleString('en') : Number(figure.toPrecision(4)).toString();
}
