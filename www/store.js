// Keeps the job in the browser (IndexedDB) and hands it out when the program itself can't. Plain script, so that it
// works with the program dead.
"use strict";
globalThis.backmarkStore = (() => {
  const NAME = "backmark", STORE = "jobs", KEY = "job";
  let opening = null; // one connection, opened again after it was closed or failed
  let seen = 0; // the revision that this window last read or wrote
  let last = null; // the newest text, kept or not
  let forbidden = null; // why nothing may be written

  const open = () => (opening ??= new Promise((done, fail) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE);
    request.onblocked = () => fail(new Error("another window holds the store"));
    request.onerror = () => fail(request.error);
    request.onsuccess = () => {
      request.result.onclose = request.result.onversionchange = () => { request.result.close(); opening = null; };
      done(request.result);
    };
  }).catch((error) => { opening = null; throw error; }));

  // Runs `work` in one strict transaction and settles only after it is committed.
  const transact = async (mode, work) => {
    const db = await open();
    return new Promise((done, fail) => {
      let result, reason;
      const tx = db.transaction(STORE, mode, { durability: "strict" });
      tx.oncomplete = () => done(result);
      tx.onabort = () => fail(reason ?? tx.error ?? new Error("the browser broke off"));
      work(tx.objectStore(STORE), (value) => { result = value; }, (why) => { reason = new Error(why); tx.abort(); });
    });
  };

  const load = () => transact("readonly", (store, give) => {
    store.get(KEY).onsuccess = ({ target }) => {
      seen = target.result?.revision ?? 0;
      last = target.result?.text ?? null;
      give(last);
    };
  });

  // One save after another; each writes the newest text.
  let queue = Promise.resolve();
  const save = (text) => {
    last = text;
    return (queue = queue.catch(() => {}).then(write));
  };

  const write = () => {
    const text = last;
    if (forbidden) return Promise.reject(new Error(forbidden));
    return transact("readwrite", (store, give, refuse) => {
      store.get(KEY).onsuccess = ({ target }) => {
        if ((target.result?.revision ?? 0) !== seen) { refuse("another window has saved a job since"); return; }
        store.put({ revision: seen + 1, text }, KEY).onsuccess = () => give(seen + 1);
      };
    }).then((revision) => { seen = revision; });
  };

  // What is kept beside the job, each under a key of its own.
  const revisions = {};
  const noted = (key) => transact("readonly", (store, give) => {
    store.get(key).onsuccess = ({ target }) => {
      revisions[key] = target.result?.revision ?? 0;
      give(target.result?.text ?? null);
    };
  });
  const note = (key, text) => transact("readwrite", (store, give, refuse) => {
    store.get(key).onsuccess = ({ target }) => {
      const revision = revisions[key] ?? 0;
      if ((target.result?.revision ?? 0) !== revision) { refuse("another window has written since"); return; }
      store.put({ revision: revision + 1, text }, key).onsuccess = () => give(revision + 1);
    };
  }).then((revision) => { revisions[key] = revision; });

  // Puts a text that can't be read where nothing overwrites it.
  // Where that fails nothing is written any more.
  const setAside = (text) =>
    transact("readwrite", (store) => { store.put({ text }, `aside-${Date.now()}`); }).catch((error) => {
      forbidden = "the job that can't be read stands in its place";
      throw error;
    });

  const handOut = (name, text) => {
    const link = document.createElement("a");
    const type = { csv: "text/csv", xml: "text/xml" }[name.split(".").pop()] ?? "application/json";
    link.href = URL.createObjectURL(new Blob([text], { type }));
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  };

  // The program is dead: say so, and offer what it last knew.
  const panic = () => {
    const notice = document.getElementById("notice");
    notice.hidden = false;
    notice.querySelector("[data-job]").onclick = async () => {
      const text = last ?? (await load().catch(() => null));
      if (text === null) notice.querySelector("[data-none]").hidden = false;
      else handOut("job.backmark.json", text);
    };
    notice.querySelector("[data-again]").onclick = () => location.reload();
  };

  return { load, save, note, noted, setAside, handOut, panic };
})();
