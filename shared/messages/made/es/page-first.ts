// Made from ../../es/page-first.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageFirstParams } from '../params/page-first.ts';

export const pageFirstTexts: PageTexts<PageFirstParams> = {
  "page-first.server": "Servidor",
  "page-first.port": "Puerto",
  "page-first.tls": "TLS",
  "page-first.tls.on": [["isTls",{"true":"activado","other":"desactivado"},0]],
  "page-first.only-here": ["El broker solo responde a esta máquina: desde otro dispositivo no le llega nada. ",["<","link","Dejar entrar sondas y un teléfono"]],
  "page-first.key.do": "Hacerle una clave",
  "page-first.key.why": "Un dispositivo que está en otro lugar necesita una clave: un nombre de usuario y una contraseña.",
  "page-first.key.unused": ["La clave «",["keyName"],"» se hizo ",["madeAgoMs"],", y nada ha llegado con ella desde que arrancó el servidor. Si no se copió su contraseña, haz otra aquí y retira esta en ",["<","link","Claves"],"."],
  "page-first.key.ask": "Un dispositivo que está en otro lugar necesita una clave: pide una a un propietario.",
  "page-first.waiting": "A la espera del primer mensaje. Al broker no le ha llegado nada todavía.",
  "page-first.came": ["Llegó el primer mensaje (",["cameAtMs"],"), en ",["<","mono",[["topicText"]]],"."],
  "page-first.unread": ["Un mensaje en ",["<","mono",[["topicText"]]]," no se pudo usar, ",["lastAgoMs"],". ",["whyText"]],
  "page-first.unused": ["Llegan mensajes en ",["<","mono",[["topicText"]]],", un tema que Branhearth no conoce por sí solo. ",["<","link","Di qué valor es"]],
  "page-first.turned-away": [["<","b",[["whatText"]]],", desde ",["addressText"],", ",["lastAgoMs"],". ",["meaningText"]],
  "page-first.outside": "Quién entra lo decide tu propio broker: él sabe a quién rechazó.",
};
