"use strict";
// Codes read live by the camera, where the browser can; by a photograph, where it can only that;
// typed, where it can neither. A label is compared without case, spaces and hyphens.

const camera = (() => {
  const state = { id: null, stream: null, video: null, timer: 0 };
  // The forms of codes that labels carry: the programme's own, and the one that others print.
  const FORMATS = ["data_matrix", "qr_code"];

  async function detector() {
    const known = await BarcodeDetector.getSupportedFormats();
    return new BarcodeDetector({ formats: FORMATS.filter((f) => known.includes(f)) });
  }

  function stop() {
    clearTimeout(state.timer);
    for (const track of state.stream?.getTracks() ?? []) track.stop();
    Object.assign(state, { id: null, stream: null, video: null });
  }

  async function start(id, take) {
    stop();
    try {
      const reader = await detector();
      state.stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" }, audio: false });
      state.id = id;
      state.video = h("video", { muted: true, playsinline: true, autoplay: true, "aria-label": T("camera-view") });
      state.video.srcObject = state.stream;
      await state.video.play();
      render();
      const look = async () => {
        if (state.id !== id) return;
        const found = await reader.detect(state.video).catch(() => []);
        if (state.id !== id) return;
        if (found.length) {
          stop();
          take(found[0].rawValue.trim(), true);
          render();
        } else {
          state.timer = setTimeout(look, 200);
        }
      };
      look();
    } catch (e) {
      stop();
      refuse(T("camera-none"));
    }
  }

  async function fromPicture(file, take) {
    try {
      const found = await (await detector()).detect(await createImageBitmap(file));
      return found.length ? take(found[0].rawValue.trim(), true) : refuse(T("code-none"));
    } catch (e) {
      return refuse(T("code-cannot"));
    }
  }

  return { state, start, stop, fromPicture };
})();

const sameLabel = (a, b) => a.toLowerCase().replace(/[\s-]+/g, "") === b.toLowerCase().replace(/[\s-]+/g, "");

// A field for a code: camera, photograph or typing; `take` gets the text, and whether the code itself was read.
function scan(id, text, take) {
  const reads = "BarcodeDetector" in window;
  const live = reads && !!navigator.mediaDevices?.getUserMedia;
  const open = camera.state.id === id;
  const typed = () => {
    const label = (draft[`${id}-text`] || "").trim();
    if (!label) return refuse(T("need-label"));
    draft[`${id}-text`] = "";
    return take(label, false);
  };
  return h("div", { class: "scanner" },
    open ? [camera.state.video, button(`${id}-stop`, T("camera-stop"), () => { camera.stop(); render(); })] : null,
    live && !open ? button(`${id}-live`, text, () => camera.start(id, take), { class: "main" }) : null,
    reads && !open ? h("label", { class: "scan", for: id }, T("code-photo"), h("input", { id, type: "file", accept: "image/*", capture: "environment",
      onchange: (e) => { if (e.target.files[0]) camera.fromPicture(e.target.files[0], take); } })) : null,
    h("div", { class: "line" },
      h("input", { id: `${id}-text`, value: draft[`${id}-text`] || "", autocomplete: "off", autocapitalize: "characters", placeholder: T("type-label"), "aria-label": T("type-label"),
        oninput: (e) => type(`${id}-text`, e.target.value), onkeydown: (e) => { if (e.key === "Enter") typed(); } }),
      button(`${id}-take`, T("find"), typed)));
}
