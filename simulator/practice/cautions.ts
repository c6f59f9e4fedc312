import { cautionTexts } from '../../shared/messages/made/en/caution.ts';

/** What is said before anybody puts hands into a pile, real or not; in the words used wherever a pile is worked on. */
export const cautions: readonly string[] = [
  cautionTexts['caution.practice'],
  cautionTexts['caution.spores'],
  cautionTexts['caution.scald'],
  cautionTexts['caution.shed-air'],
  cautionTexts['caution.self-heating'],
  cautionTexts['caution.using'],
];

/** Said again beside the act that needs it. */
export const actCautions = {
  turn: 'Mask and gloves on; stand upwind; steam may come out.',
  spread: 'Mask and gloves on; stand upwind; steam may come out.',
  heap: 'Mask and gloves on.',
  'add-dry-bran': 'Dry bran is dusty: mask on before the bag is opened.',
  'close-shed': 'Air goes bad in a closed shed: open the doors and wait before going in.',
  squeeze: `${cautionTexts['caution.hot-handful']} ${cautionTexts['caution.hands']}`,
  'look-and-smell': cautionTexts['caution.smelling'],
} as const;
