// Made from ../../pt-BR/material.json by `npm run messages`; change that instead.
export const materialTexts = {
  "material.wheat-bran": "farelo de trigo",
  "material.rice-bran": "farelo de arroz",
  "material.soil": "terra de canteiro",
  "material.compost": "composto pronto",
  "material.soil-mix": "mistura com terra",
  "material.compost-mix": "mistura com composto",
  "material.other": "outra coisa",
  "material.unnamed": "material",
};
