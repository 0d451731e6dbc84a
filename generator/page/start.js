// Gives the page its core: startFootroom() unpacks data and WebAssembly that stand in the page and
// resolves to an object whose ask(request) returns the reply. Bundled with the libraries it needs.

import MarkdownIt from "markdown-it";
import { inflate } from "pako/lib/inflate.js";
import createCore from "footroom-core";

// As the program's own library does it: raw HTML is left out, and so is the target of a link that
// could run something.
const markdown = new MarkdownIt("commonmark");
const left_out = (text) => "<!-- raw HTML omitted -->" + text;
markdown.renderer.rules.html_block = () => left_out("\n");
markdown.renderer.rules.html_inline = () => left_out("");
const dangerous = /^(javascript|vbscript|file|data):/i;
const picture = /^data:image\/(png|gif|jpeg|webp)/i;
markdown.validateLink = () => true;
const normal_link = markdown.normalizeLink;
markdown.normalizeLink = (link) =>
  dangerous.test(link) && !picture.test(link) ? "" : normal_link(link);

function unpacked(id) {
  const packed = atob(document.getElementById(id).textContent.trim());
  return inflate(Uint8Array.from(packed, (one) => one.charCodeAt(0)));
}

// From the bytes of the WebAssembly and the text of the data, for tests too.
export async function start_core(wasm, data) {
  const core = await createCore({ wasmBinary: wasm, markdown: (text) => markdown.render(text) });
  const call = (name, text) => {
    const size = core.lengthBytesUTF8(text) + 1;
    const at = core._malloc(size);
    core.stringToUTF8(text, at, size);
    const reply = core.UTF8ToString(core[name](at));
    core._free(at);
    return reply;
  };
  const fault = call("_footroom_start", data);
  if (fault) throw new Error(fault);
  const ask_text = (request) => call("_footroom_ask", request);
  return {
    ask_text,
    ask(request) {
      try {
        return JSON.parse(ask_text(JSON.stringify(request)));
      } catch (fault) {
        return { fault: String(fault) };
      }
    },
  };
}

globalThis.startFootroomCore = start_core;
globalThis.startFootroom = async () =>
  start_core(unpacked("footroom-core"), new TextDecoder().decode(unpacked("footroom-data")));
