/** A value that parts of the page follow. */
import { useEffect, useState } from 'preact/hooks';

export interface Store<T> {
  get(): T;
  set(next: T): void;
  follow(listener: () => void): () => void;
}

export function createStore<T>(first: T): Store<T> {
  let value = first;
  const listeners = new Set<() => void>();
  return {
    get: () => value,
    set(next) {
      if (Object.is(next, value)) return;
      value = next;
      for (const listener of [...listeners]) listener();
    },
    follow(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** Draws anew when the chosen part of the store changes. */
export function useStore<T, Part>(store: Store<T>, choose: (value: T) => Part): Part {
  const [, redraw] = useState({});
  const part = choose(store.get());
  useEffect(() => {
    let shown = part;
    const look = () => {
      const next = choose(store.get());
      if (Object.is(next, shown)) return;
      shown = next;
      redraw({});
    };
    // Something may have changed between drawing and following.
    look();
    return store.follow(look);
  });
  return part;
}
