/** Hands a text to the person as a file. It is made in this browser and goes nowhere else. */
export const download = (name: string, type: string, text: string): void => {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  // The browser has taken the address over once the click returns to its own loop.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
};
