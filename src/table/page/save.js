// SPDX-License-Identifier: MIT
// Files that the browser is handed to keep.

/**
 * Lets the browser keep a file.
 * @param {BlobPart} bytes
 * @param {string} name
 * @param {string} kind
 */
export function save(bytes, name, kind) {
  const address = URL.createObjectURL(new Blob([bytes], { type: kind }));
  const link = Object.assign(document.createElement("a"), { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60000);
}
