// Made from ../../en/caution.json by `npm run messages`; change that instead.
export const cautionTexts = {
  "caution.spores": "Turning throws up mould spores and steam, and so does mixing: stand upwind, wear gloves and a close-fitting dust mask (FFP3, or at least N95), and wash afterwards. People with asthma, lung trouble or a weak immune system should leave it to others.",
  "caution.coloured-mould": "Coloured moulds throw up spores when they are touched: stand upwind, wear gloves and a close-fitting dust mask (FFP3, or at least N95), and do not bend over it to smell it. People with asthma, lung trouble or a weak immune system should leave it to others.",
  "caution.dry-bran": "Dry bran dusts: pour it low and slowly and wear a dust mask. Use none that smells musty or is mouldy.",
  "caution.smelling": "Do not put your nose into a mouldy heap: hold a handful at arm’s length in the open and wave its smell towards you.",
  "caution.ammonia": "Ammonia stings eyes and lungs: open the doors before you go in, stay upwind, and leave when it stings.",
  "caution.foul-air": "A sour or foul heap in a closed shed uses up air: open the doors before you go in.",
  "caution.shed-air": "In a shed, air it before going in: a working heap uses up oxygen and gives off carbon dioxide, and ammonia if it is wet.",
  "caution.fire": "Hot, dry material can catch fire when it is opened to the air. Keep people back, have water at hand, and follow your fire service.",
  "caution.deep": "A deep or packed heap holds its heat and can go on heating by itself: do not leave warm bran in sacks or bins.",
  "caution.scald": "The core is hot enough to scald, and its steam too: wear gloves and long sleeves.",
  "caution.watering": "Water cannot be taken out again: give a little at a time, mix it in, and squeeze a handful before giving more.",
  "caution.using": "It is not sanitised: keep it off plant parts that are eaten raw and wash hands after use. Where any manure is in it, your rules on days before harvest apply (in US organic farming 90 or 120).",
  "caution.unknown-heat": "What the pile does meanwhile is not known: it may be heating.",
};
