/** One pile as its pages follow it: fetched whole, kept in step by live events, noticed when removed. */
import { useMemo, useRef } from 'preact/hooks';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { getPile } from '../../data/routes.ts';
import { useQuery, useThrottled } from '../../data/use-query.ts';

export interface FollowedPile {
  readonly pile: PileDetail | undefined;
  readonly error: unknown;
  /** Its name, once it lay here and was removed while the page was open. */
  readonly goneName: string | undefined;
  refresh(): Promise<void>;
}

export function usePile(id: string): FollowedPile {
  const { value, error, refresh } = useQuery(id, () => getPile(id));
  const isListed = useInstallation((installation) => installation.piles !== null);
  const live = useInstallation((installation) => installation.piles?.find((pile) => pile.id === id));
  // Live events carry the summary; acts, limits, evidence and judgement are fetched again when it changes.
  useThrottled(live, 2_500, () => void refresh());
  const known = useRef<{ id: string; name: string }>(undefined);
  if (live) known.current = { id, name: live.name };
  const isGone = isListed && !live && known.current?.id === id;
  const whole = useMemo(() => (value && live ? { ...value, ...live } : value), [value, live]);
  return {
    pile: isGone ? undefined : whole,
    error,
    goneName: isGone ? known.current?.name : undefined,
    refresh,
  };
}
