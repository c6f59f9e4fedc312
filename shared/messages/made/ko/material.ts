// Made from ../../ko/material.json by `npm run messages`; change that instead.
export const materialTexts = {
  "material.wheat-bran": "밀기울",
  "material.rice-bran": "쌀겨",
  "material.soil": "밭흙",
  "material.compost": "완성된 퇴비",
  "material.soil-mix": "흙을 섞은 것",
  "material.compost-mix": "퇴비를 섞은 것",
  "material.other": "다른 것",
  "material.unnamed": "재료",
};
