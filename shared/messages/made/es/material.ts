// Made from ../../es/material.json by `npm run messages`; change that instead.
export const materialTexts = {
  "material.wheat-bran": "salvado de trigo",
  "material.rice-bran": "salvado de arroz",
  "material.soil": "tierra de huerta",
  "material.compost": "compost terminado",
  "material.soil-mix": "mezcla con tierra",
  "material.compost-mix": "mezcla con compost",
  "material.other": "otra cosa",
  "material.unnamed": "material",
};
