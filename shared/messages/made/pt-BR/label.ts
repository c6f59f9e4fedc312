// Made from ../../pt-BR/label.json by `npm run messages`; change that instead.
export const labelTexts = {
  "label.opens": "O código abre o diário desta pilha.",
  "label.opens-here": "O código só abre nesta máquina. Antes de imprimir, ponha em BRANHEARTH_PUBLIC_URL o endereço que os celulares alcançam.",
};
