// Made from ../../es/label.json by `npm run messages`; change that instead.
export const labelTexts = {
  "label.opens": "El código abre el diario de esta pila.",
  "label.opens-here": "El código solo se abre en esta máquina. Pon en BRANHEARTH_PUBLIC_URL la dirección a la que llegan los teléfonos antes de imprimirlo.",
};
