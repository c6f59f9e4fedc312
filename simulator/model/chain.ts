/** Solves a chain in which each node touches only its two neighbours. */

/** lower · value of the node before + diagonal · value + upper · value of the node after = rhs. */
export interface ChainNode {
  lower: number;
  diagonal: number;
  upper: number;
  rhs: number;
  value: number;
}

export function createChain(count: number): ChainNode[] {
  return Array.from({ length: count }, () => ({ lower: 0, diagonal: 1, upper: 0, rhs: 0, value: 0 }));
}

/**
 * Thomas algorithm over the first `count` nodes.
 *
 * @remarks Stable without pivoting when the diagonal dominates, as it does for every chain of this model.
 * `lower` of the first node and `upper` of the last are not read; `diagonal` and `rhs` are overwritten.
 */
export function solveChain(nodes: readonly ChainNode[], count: number = nodes.length): void {
  let before: ChainNode | undefined;
  for (let i = 0; i < count; i += 1) {
    const node = nodes[i];
    if (node === undefined) return;
    if (before !== undefined) {
      const factor = node.lower / before.diagonal;
      node.diagonal -= factor * before.upper;
      node.rhs -= factor * before.rhs;
    }
    before = node;
  }
  let valueAfter = 0;
  for (let i = count - 1; i >= 0; i -= 1) {
    const node = nodes[i];
    if (node === undefined) return;
    const pull = i === count - 1 ? 0 : node.upper * valueAfter;
    node.value = (node.rhs - pull) / node.diagonal;
    valueAfter = node.value;
  }
}
