/** How near the disk is to full, as named levels. */
export type DiskLevel = 'ok' | 'low' | 'full';
export type DiskArrow = 'stay' | 'ran-low' | 'ran-full' | 'freed-some' | 'freed-enough';

/** Below this share of the mark nothing of size can be written any more. */
const fullShare = 0.02;
const toLeave = 1.1;

export function stepDisk(from: DiskLevel, freeBytes: number, lowBytes: number): { level: DiskLevel; arrow: DiskArrow } {
  const fullBytes = lowBytes * fullShare;
  const entered = levelAt(freeBytes, lowBytes, fullBytes);
  const left = levelAt(freeBytes, lowBytes * toLeave, fullBytes * toLeave);
  // What is entered counts on the way down, what is left on the way up.
  const level = rank[entered] > rank[from] ? entered : rank[left] < rank[from] ? left : from;
  return { level, arrow: arrowOf(from, level) };
}

const rank: Record<DiskLevel, number> = { ok: 0, low: 1, full: 2 };

function levelAt(freeBytes: number, lowBytes: number, fullBytes: number): DiskLevel {
  if (freeBytes < fullBytes) return 'full';
  return freeBytes < lowBytes ? 'low' : 'ok';
}

function arrowOf(from: DiskLevel, to: DiskLevel): DiskArrow {
  if (from === to) return 'stay';
  if (rank[to] > rank[from]) return to === 'full' ? 'ran-full' : 'ran-low';
  return to === 'ok' ? 'freed-enough' : 'freed-some';
}
