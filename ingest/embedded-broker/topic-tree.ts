/**
 * Something for each of many topics, found by filters with wildcards. It is walked level by level, so that a filter
 * costs what it can match, not what there is.
 */
interface Branch<Kept> {
  readonly below: Map<string, Branch<Kept>>;
  kept: Kept | undefined;
}

export interface TopicTree<Kept> {
  set(topic: string, kept: Kept): void;
  delete(topic: string): void;
  /** Those that a filter matches (MQTT 3.1.1 section 4.7). */
  matching(filter: string): Generator<Kept>;
}

export function createTopicTree<Kept>(): TopicTree<Kept> {
  const root: Branch<Kept> = { below: new Map(), kept: undefined };

  function* all(branch: Branch<Kept>): Generator<Kept> {
    if (branch.kept !== undefined) yield branch.kept;
    for (const next of branch.below.values()) yield* all(next);
  }

  function* find(branch: Branch<Kept>, levels: readonly string[], at: number): Generator<Kept> {
    const level = levels[at];
    if (level === undefined) {
      if (branch.kept !== undefined) yield branch.kept;
      return;
    }
    if (level !== '#' && level !== '+') {
      const next = branch.below.get(level);
      if (next) yield* find(next, levels, at + 1);
      return;
    }
    if (level === '#' && at > 0 && branch.kept !== undefined) yield branch.kept; // the parent level too (section 4.7.1.2)
    for (const [name, next] of branch.below) {
      if (at === 0 && name.startsWith('$')) continue; // wildcards do not reach these [MQTT-4.7.2-1]
      if (level === '#') yield* all(next);
      else yield* find(next, levels, at + 1);
    }
  }

  function remove(branch: Branch<Kept>, levels: readonly string[], at: number): void {
    const level = levels[at];
    if (level === undefined) {
      branch.kept = undefined;
      return;
    }
    const next = branch.below.get(level);
    if (!next) return;
    remove(next, levels, at + 1);
    if (next.kept === undefined && next.below.size === 0) branch.below.delete(level);
  }

  return {
    set(topic, kept) {
      let branch = root;
      for (const level of topic.split('/')) {
        let next = branch.below.get(level);
        if (!next) {
          next = { below: new Map(), kept: undefined };
          branch.below.set(level, next);
        }
        branch = next;
      }
      branch.kept = kept;
    },
    delete: (topic) => remove(root, topic.split('/'), 0),
    matching: (filter) => find(root, filter.split('/'), 0),
  };
}
