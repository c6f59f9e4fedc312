/** A value that parts of the page follow. */
import { useEffect, useState } from 'preact/hooks';

export interface Store<T> {
  get(): T;
  set(next: T): void;
  /** Followers hear once of all that `act` sets. */
  together(act: () => void): void;
  follow(listener: () => void): () => void;
}

export type Followed<T> = Pick<Store<T>, 'get' | 'follow'>;

export function createStore<T>(first: T): Store<T> {
  let value = first;
  let heard = first;
  let isTogether = false;
  const listeners = new Set<() => void>();
  const say = () => {
    if (isTogether || Object.is(value, heard)) return;
    heard = value;
    for (const listener of [...listeners]) listener();
  };
  return {
    get: () => value,
    set(next) {
      value = next;
      say();
    },
    together(act) {
      const isInner = isTogether;
      isTogether = true;
      try {
        act();
      } finally {
        isTogether = isInner;
        say();
      }
    },
    follow(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** A part of a store. Hundreds of lines may follow it, and are not asked when anything else changes. */
export function partOf<T, Part>(store: Followed<T>, choose: (value: T) => Part): Followed<Part> {
  const part = createStore(choose(store.get()));
  store.follow(() => part.set(choose(store.get())));
  return part;
}

/** Draws anew when the chosen part of the store changes. */
export function useStore<T, Part>(store: Followed<T>, choose: (value: T) => Part): Part {
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
