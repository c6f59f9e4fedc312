/** What is said before anybody puts hands into a pile, real or not. */
export const cautions: readonly string[] = [
  'This is a simulation. A real pile may behave differently, and local codes and licensed practice come first.',
  'Turning throws up mould spores and dust. Stand upwind, wear gloves and a close-fitting dust mask (FFP3, or at least N95). People with asthma, cystic fibrosis, a weak immune system or recent lung surgery should not turn or spread.',
  'A hot pile burns: from about 60 °C within seconds, and steam comes out when it is opened.',
  'A warm pile in a closed shed uses up the air and gives off carbon dioxide and ammonia. Open the doors and wait before you go in, and never go in alone.',
  'Above 65 °C it may heat itself further. From 79 °C keep away, keep air out and call the fire service.',
  'A pile kept for its culture is not sanitised. Wash hands, and keep it off what is eaten raw.',
];

/** Said again beside the act that needs it. */
export const actCautions = {
  turn: 'Mask and gloves on; stand upwind; steam may come out.',
  spread: 'Mask and gloves on; stand upwind; steam may come out.',
  heap: 'Mask and gloves on.',
  'add-dry-bran': 'Dry bran is dusty: mask on before the bag is opened.',
  'close-shed': 'Air goes bad in a closed shed: open the doors and wait before going in.',
  squeeze: 'Gloves on, and feel from outside first: the inside may burn.',
  'look-and-smell': 'Do not put your face into it: smell from a hand held over it.',
} as const;
