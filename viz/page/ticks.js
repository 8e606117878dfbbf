// Ticks and readings, kept in the browser under a key of this very order.
"use strict";

class Ticks {
  constructor(key) {
    this.key = "evenpull " + key;
    this.kept = true;
    this.set = new Set();
    this.read();
    try {
      // A key of its own: opening the page must never write over ticks that the browser has not handed out yet.
      localStorage.setItem(this.key + " can be kept", "yes");
    } catch {
      this.kept = false;
    }
  }
  read() {
    const before = about.done.map((step) => "step " + step); // worked before the plan was made
    try {
      this.set = new Set(JSON.parse(localStorage.getItem(this.key)) ?? before);
    } catch {
      this.set = new Set(before);
      this.kept = false;
    }
  }
  // A browser may hand ticks out after the page was opened: what it has by now is not written over.
  takeLate() {
    try {
      const kept = JSON.parse(localStorage.getItem(this.key));
      if (kept) this.set = new Set(kept);
    } catch {
      this.kept = false; // what is ticked in this window stays
    }
  }
  has(name) { return this.set.has(name); }
  put(name, is) {
    this.takeLate();
    if (is) this.set.add(name);
    else this.set.delete(name);
    this.save();
  }
  // Readings lie beside the ticks, under the same key.
  readings() {
    try {
      return JSON.parse(localStorage.getItem(this.key + " readings")) ?? {};
    } catch {
      return this.unkept ?? {};
    }
  }
  keepReadings(all) {
    this.unkept = all;
    try {
      localStorage.setItem(this.key + " readings", JSON.stringify(all));
    } catch {
      this.kept = false;
    }
  }
  clear() {
    this.set.clear();
    this.keepReadings({});
    this.save();
  }
  save() {
    try {
      localStorage.setItem(this.key, JSON.stringify([...this.set].sort()));
    } catch {
      this.kept = false;
    }
    by("ticks-lost").hidden = this.kept;
  }
}
