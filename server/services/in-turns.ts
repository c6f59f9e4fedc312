import { setImmediate as turnOfOthers } from 'node:timers/promises';

const mostAtOnce = 100;

/** `items.map(make)` in pieces of a few milliseconds, so that many hold up nobody else. */
export async function inTurns<Item, Made>(items: readonly Item[], make: (item: Item) => Made): Promise<Made[]> {
  const made: Made[] = [];
  for (const item of items) {
    made.push(make(item));
    if (made.length % mostAtOnce === 0) await turnOfOthers();
  }
  return made;
}
