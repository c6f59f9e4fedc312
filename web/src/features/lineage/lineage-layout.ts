/**
 * Where each member of a family stands in the drawing, and how the flows run between them. It never loops: should the
 * data hold a circle after all, its members get the row they have reached by then.
 */
import type { FlowView, LineageAnswer, LineageNode } from '../../../../shared/contracts/lineage.ts';

export interface Placed {
  readonly node: LineageNode;
  /** Its generation, from 0 at the sources. */
  readonly row: number;
  /** Within its generation, from 0, in cells; may be a half. */
  readonly column: number;
}

export interface Drawn {
  readonly placed: readonly Placed[];
  readonly flows: readonly { readonly flow: FlowView; readonly from: Placed; readonly to: Placed }[];
  readonly rows: number;
  readonly columns: number;
}

export const keyOf = ({ kind, id }: { readonly kind: string; readonly id: string }) => `${kind}:${id}`;

/** Each stands one row below the lowest of those it came from. */
export function rowsOf({ nodes, flows }: Pick<LineageAnswer, 'nodes' | 'flows'>): Map<string, number> {
  const rows = new Map(nodes.map((node) => [keyOf(node), 0]));
  for (let round = 0; round < nodes.length; round++) {
    let moved = false;
    for (const flow of flows) {
      const [from, to] = [rows.get(keyOf(flow.from)), rows.get(keyOf(flow.to))];
      if (from === undefined || to === undefined || to > from) continue;
      rows.set(keyOf(flow.to), from + 1);
      moved = true;
    }
    if (!moved) break;
  }
  // A source stands right above the first that took from it, not at the top of everything.
  for (const node of nodes) {
    const key = keyOf(node);
    if (flows.some((flow) => keyOf(flow.to) === key)) continue;
    const below = flows.filter((flow) => keyOf(flow.from) === key).map((flow) => rows.get(keyOf(flow.to)) ?? 1);
    if (below.length > 0) rows.set(key, Math.max(0, Math.min(...below) - 1));
  }
  return rows;
}

export function drawLineage(answer: LineageAnswer): Drawn {
  const rows = rowsOf(answer);
  const byRow: LineageNode[][] = [];
  for (const node of answer.nodes) {
    const row = rows.get(keyOf(node)) ?? 0;
    byRow[row] = [...(byRow[row] ?? []), node];
  }
  const lines = byRow.map((line) => [...(line ?? [])].sort((one, other) => one.at.localeCompare(other.at)));
  orderLines(lines, answer.flows);
  const columns = Math.max(1, ...lines.map((line) => line.length));
  const placed = lines.flatMap((line, row) =>
    line.map((node, index) => ({ node, row, column: index + (columns - line.length) / 2 })),
  );
  const byKey = new Map(placed.map((one) => [keyOf(one.node), one]));
  const flows = answer.flows.flatMap((flow) => {
    const [from, to] = [byKey.get(keyOf(flow.from)), byKey.get(keyOf(flow.to))];
    return from && to ? [{ flow, from, to }] : [];
  });
  return { placed, flows, rows: lines.length, columns };
}

/** Twice down and up: each member moves to the middle of those it is joined with in the row before. */
function orderLines(lines: LineageNode[][], flows: readonly FlowView[]): void {
  const joined = new Map<string, string[]>();
  for (const { from, to } of flows) {
    joined.set(keyOf(from), [...(joined.get(keyOf(from)) ?? []), keyOf(to)]);
    joined.set(keyOf(to), [...(joined.get(keyOf(to)) ?? []), keyOf(from)]);
  }
  const order = (line: LineageNode[], beside: readonly LineageNode[]) => {
    const places = new Map(beside.map((node, index) => [keyOf(node), (index + 0.5) / beside.length]));
    const middle = (node: LineageNode, index: number) => {
      const found = (joined.get(keyOf(node)) ?? []).flatMap((key) => places.get(key) ?? []);
      return found.length === 0 ? (index + 0.5) / line.length : found.reduce((sum, one) => sum + one, 0) / found.length;
    };
    const weighed = line.map((node, index) => ({ node, at: middle(node, index) }));
    weighed.sort((one, other) => one.at - other.at);
    line.splice(0, line.length, ...weighed.map(({ node }) => node));
  };
  for (let round = 0; round < 2; round++) {
    for (let row = 1; row < lines.length; row++) order(lines[row] ?? [], lines[row - 1] ?? []);
    for (let row = lines.length - 2; row >= 0; row--) order(lines[row] ?? [], lines[row + 1] ?? []);
  }
}

/** Breaks a name into at most `most` lines of about `width` letters, the last one cut with an ellipsis. */
export function wrapWords(text: string, width: number, most: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/).filter(Boolean)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= width) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  const cut = (line: string, isLast: boolean) =>
    line.length > width || isLast ? `${line.slice(0, Math.max(1, width - 1)).trimEnd()}…` : line;
  return lines.slice(0, most).map((line, index) => cut(line, index === most - 1 && lines.length > most));
}
