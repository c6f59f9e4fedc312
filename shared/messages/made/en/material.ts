// Made from ../../en/material.json by `npm run messages`; change that instead.
export const materialTexts = {
  "material.wheat-bran": "wheat bran",
  "material.rice-bran": "rice bran",
  "material.soil": "garden soil",
  "material.compost": "finished compost",
  "material.soil-mix": "mix with soil",
  "material.compost-mix": "mix with compost",
  "material.other": "something else",
  "material.unnamed": "material",
};
