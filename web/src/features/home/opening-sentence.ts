import type { PageHomeParams } from '../../../../shared/messages/made/params/page-home.ts';
import type { PageWords } from '../../data/live/page-texts.ts';
import type { Opening } from './home-order.ts';

/**
 * @param isLost Out of reach of the server, where nothing is known of now.
 * @example "Two of four piles need you now."; lost: "When last heard: two of four piles need you."
 */
export function openingSentence({ what, ...counts }: Opening, { text }: PageWords<PageHomeParams>, isLost: boolean) {
  const { someCount, pileCount } = counts;
  if (what === 'watch')
    return isLost ? text('page-home.heard.watch', { someCount }) : text('page-home.now.watch', { someCount });
  if (what === 'unknown')
    return isLost ? text('page-home.heard.unknown', { someCount }) : text('page-home.now.unknown', { someCount });
  if (what === 'calm')
    return isLost ? text('page-home.heard.calm', { pileCount }) : text('page-home.now.calm', { pileCount });
  return isLost ? text(`page-home.heard.${what}`, counts) : text(`page-home.now.${what}`, counts);
}
