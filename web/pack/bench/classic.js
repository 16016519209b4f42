// Pyodide turns classic workers away by calling importScripts, and a module worker cannot be made from this page.
// Nothing here is fetched by importScripts, so it may as well refuse.
self.importScripts = () => {
  throw new Error("nothing is imported");
};
