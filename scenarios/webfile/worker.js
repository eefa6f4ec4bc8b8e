// The worker of the page: it runs the engine. Messages in: {module | bytes}, then
// {id, files, request}. Messages out: {ready, module}, {id, done, all} and {id, reply}.
"use strict";
let engine;
const ready = new Promise(resolve => { self.engineReady = resolve; });

async function start(message) {
  let module = message.module;
  if (!module) {
    const stream = new Blob([message.bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
    module = await WebAssembly.compileStreaming(new Response(stream, { headers: { "Content-Type": "application/wasm" } }));
  }
  const go = new Go();
  const instance = await WebAssembly.instantiate(module, go.importObject);
  go.run(instance);
  await ready;
  engine = self.loamledger;
  postMessage({ ready: true, module, bytes: instance.exports.mem.buffer.byteLength });
  self.memory = instance.exports.mem;
}

self.onmessage = event => {
  const message = event.data;
  if (!engine && !message.id) {
    start(message).catch(error => postMessage({ failed: String(error) }));
    return;
  }
  for (const [name, bytes] of Object.entries(message.files || {})) engine.put(name, bytes);
  const begin = performance.now();
  const reply = engine.answer(JSON.stringify(message.request), (done, all) => postMessage({ id: message.id, done, all }));
  postMessage({ id: message.id, reply: JSON.parse(reply), ms: performance.now() - begin, memory: self.memory.buffer.byteLength });
};
