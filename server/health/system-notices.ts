/**
 * What is wrong with the server itself, for pages, health and whoever tells people. It never sends anything itself.
 */
import type { Message } from '../../shared/messages/message.ts';

export interface SystemNotice {
  /** Which part: one notice stands for each at a time. */
  readonly kind: 'disk' | 'broker' | 'piles' | 'records' | 'backup';
  readonly severity: 'warning' | 'critical';
  readonly sinceMs: number;
  readonly seen: Message;
  readonly todo: Message;
  /** What it is about, where that is several things: people are notified anew when another joins. */
  readonly about?: readonly string[];
}

export type NoticeChange = { readonly kind: SystemNotice['kind']; readonly notice: SystemNotice | null };

export class SystemNotices {
  readonly #standing = new Map<SystemNotice['kind'], SystemNotice>();
  readonly #listeners = new Set<(change: NoticeChange) => void>();

  standing(): SystemNotice[] {
    return [...this.#standing.values()];
  }

  /** The same again changes nothing. */
  raise(notice: SystemNotice): void {
    const before = this.#standing.get(notice.kind);
    if (before?.severity === notice.severity && wordsOf(before) === wordsOf(notice)) return;
    this.#standing.set(notice.kind, notice);
    this.#emit({ kind: notice.kind, notice });
  }

  clear(kind: SystemNotice['kind']): void {
    if (this.#standing.delete(kind)) this.#emit({ kind, notice: null });
  }

  /** @returns a way to stop listening. */
  onChange(listener: (change: NoticeChange) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  #emit(change: NoticeChange): void {
    for (const listener of this.#listeners) listener(change);
  }
}

const wordsOf = ({ seen, todo }: SystemNotice): string => JSON.stringify([seen, todo]);
