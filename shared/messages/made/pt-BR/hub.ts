// Made from ../../pt-BR/hub.json by `npm run messages`; change that instead.
export const hubTexts = {
  "hub.temperature": "{position, select, core {Temperatura no centro} top {Temperatura do topo} base {Temperatura da base} edge {Temperatura da borda} air {Temperatura do ar} other {}}",
  "hub.moisture": "Umidade pelo balanço de água",
  "hub.condition": "Estado",
  "hub.next": "O que fazer agora",
  "hub.warning": "Aviso mais grave",
  "hub.last-heard": "Última leitura",
  "hub.acknowledge": "Marcar avisos como vistos",
};
