/** Part of the service worker: answers of the network, whether they are whole, and how long they are waited for. */

/** A network that is silent for longer is none, where something was kept: milliseconds. */
const PATIENCE = 4000;
/** Silence after which a fetch is given up that nobody looks at: it would hold up the next build's worker. */
const LONG_PATIENCE = 30_000;

/** What the promise gives, unless that takes longer. */
function soon(promise, patience) {
  let timer = 0;
  const late = new Promise((_, reject) => {
    timer = setTimeout(() => reject(new Error("too late")), patience);
  });
  return Promise.race([promise, late]).finally(() => clearTimeout(timer));
}

/** An answer and all of its bytes; the answer can still be read. Fails where either does not come. */
async function whole(url, options, patience) {
  const stop = new AbortController();
  try {
    const response = await soon(fetch(url, { ...options, signal: stop.signal }), patience);
    return { response, bytes: await bytesOf(response.clone(), patience) };
  } catch (error) {
    stop.abort();
    throw error;
  }
}

/** The body's bytes. They may take as long as they like while some come; fails after a silence, or if there are too few. */
async function bytesOf(response, patience) {
  const parts = [];
  const reader = response.body?.getReader();
  try {
    let step = reader ? await soon(reader.read(), patience) : { done: true };
    while (!step.done) {
      parts.push(step.value);
      step = await soon(reader.read(), patience);
    }
  } catch (error) {
    reader.cancel().catch(() => {});
    throw error;
  }
  const bytes = await new Blob(parts).arrayBuffer();
  // Not every browser finds it out. Of a packed answer the packed length is announced.
  const announced = response.headers.has("content-encoding") ? null : response.headers.get("content-length");
  if (announced !== null && bytes.byteLength < Number(announced)) {
    throw new Error(`${response.url} was cut off`);
  }
  return bytes;
}

/** Whether an answer is the file that a row of the build's list means. */
async function isRight(response, bytes, [, size, hash]) {
  if (!response.ok || isHtml(response) || bytes.byteLength !== size) {
    return false;
  }
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  const found = Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return found.startsWith(hash);
}

const isHtml = (response) => /^text\/html\b/i.test(response.headers.get("content-type") ?? "");

/** Whether a page is there up to its end. A host that closes the connection early announces no length. */
const isWhole = (html) => html.includes("</html>");

const isOfThisBuild = (html) => html.includes(`<meta name="build" content="${BUILD.id}">`);

const textOf = (bytes) => new TextDecoder().decode(bytes);

/** What the work gives; null where it fails. For storage, since what comes from the network does not depend on it. */
async function quietly(work) {
  try {
    return await work();
  } catch {
    return null;
  }
}
