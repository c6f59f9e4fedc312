// Made from ../../ja/material.json by `npm run messages`; change that instead.
export const materialTexts = {
  "material.wheat-bran": "ふすま（小麦ぬか）",
  "material.rice-bran": "米ぬか",
  "material.soil": "畑の土",
  "material.compost": "完成した堆肥",
  "material.soil-mix": "土を混ぜたもの",
  "material.compost-mix": "堆肥を混ぜたもの",
  "material.other": "その他",
  "material.unnamed": "材料",
};
