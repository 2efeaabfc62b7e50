/** Paired devices: who they are, what they may do; invitations. The owner's alone. */

import { address, readAll, send } from "../api.js";
import { fill, h } from "../dom.js";
import { action, banner, card, failure, figures, loading } from "../parts.js";
import { ROLES, me } from "../roles.js";
import { dateText, daysAgo, t } from "../text.js";

/** @import { Device, Role } from "../types.js" */

export async function show() {
  const list = h("div", loading());
  void place(list);
  return {
    title: t("devices-title"),
    body: [invitation(), list],
    back: "settings",
    actions: [],
  };
}

function invitation() {
  const shown = h("div", { role: "status" });
  /** @param {Role} role */
  const invite = async (role) => {
    try {
      const path = address("/v1/devices/invitations");
      const made = await send("POST", path, { json: { role } });
      const drawing = `data:image/svg+xml,${encodeURIComponent(made.qr_svg)}`;
      fill(
        shown,
        h("img.qr", { src: drawing, alt: t("devices-qr-alt", { code: made.code }) }),
        h("p", t("devices-scan", { n: made.minutes })),
        h("p.code", `${made.code.slice(0, 4)} ${made.code.slice(4)}`),
      );
    } catch (error) {
      fill(shown, failure(error));
    }
  };
  const buttons = ROLES.map((role) =>
    action(t(`devices-invite-${role}`), { onclick: () => invite(role) }),
  );
  return card(t("devices-invite"), h("p", t("devices-invite-how")), buttons, shown);
}

/** @param {HTMLElement} list */
async function place(list) {
  try {
    const [{ data: devices, stale }, mine] = await Promise.all([
      readAll(address("/v1/devices/list")),
      me(),
    ]);
    const own = mine?.device?.id;
    fill(
      list,
      stale ? banner("plain", null, h("p", t("stale"))) : null,
      devices.length ? null : h("p.note", t("devices-none")),
      devices.map((device) => deviceCard(device, device.id === own, () => place(list))),
    );
  } catch (error) {
    fill(list, failure(error));
  }
}

/**
 * @param {Device} device
 * @param {boolean} isThis
 * @param {() => unknown} done
 */
function deviceCard(device, isThis, done) {
  return card(
    isThis ? t("devices-this", { name: device.name }) : device.name,
    figures([
      [t("devices-role"), t(`role-${device.role}`)],
      [t("devices-seen"), seen(device)],
      [t("devices-paired"), dateText(device.paired_at)],
      [t("devices-ends"), ends(device)],
    ]),
    h("details", h("summary", t("devices-change")), changes(device, isThis, done)),
  );
}

/**
 * @param {Device} device
 * @param {boolean} isThis
 * @param {() => unknown} done
 */
function changes(device, isThis, done) {
  const told = h("div", { role: "alert" });
  /** @param {() => Promise<unknown>} work */
  const tried = async (work) => {
    try {
      await work();
      await done();
    } catch (error) {
      fill(told, failure(error));
    }
  };
  const path = address("/v1/devices/{device_id}", { device_id: device.id });
  const id = `name-${device.id}`;
  const name = h("input", { id, type: "text", maxlength: 60, value: device.name });
  const role = roleChoice(device);
  const save = () => {
    if (isThis && role.value !== "owner" && !window.confirm(t("devices-demote-sure")))
      return;
    const json = { name: name.value.trim(), role: role.value };
    void tried(() => send("PUT", path, { json }));
  };
  const unpair = () => {
    if (!window.confirm(t("devices-unpair-sure", { name: device.name }))) return;
    void tried(() => send("DELETE", path));
  };
  return [
    h("div.row", h("label", { for: id }, t("devices-name")), name),
    h("div.row", h("label", { for: role.id }, t("devices-role")), role),
    action(t("devices-save"), { onclick: save, name: "check" }),
    action(t("devices-unpair"), { onclick: unpair, name: "out", kind: "quiet" }),
    told,
  ];
}

/** @param {Device} device */
function roleChoice({ id, role }) {
  const options = ROLES.map((one) =>
    h("option", { value: one, selected: one === role }, t(`role-${one}`)),
  );
  return h("select", { id: `role-${id}` }, options);
}

/** @param {Device} device */
function seen({ last_seen_at: at }) {
  if (!at) return t("devices-never");
  const days = daysAgo(at);
  return days <= 0 ? t("devices-today") : dateText(at);
}

/** @param {Device} device */
function ends({ ends_at: at }) {
  if (!at) return null;
  return Date.parse(at) <= Date.now() ? t("devices-ended") : dateText(at);
}
