// The service worker's own globals. The library types `self` as any worker's.

/** Put in front of the published file by kbtools/site/offline.py. */
declare const BUILD: BuildConstants;

interface WorkerGlobalScope {
  readonly registration: ServiceWorkerRegistration;
  readonly clients: Clients;
  skipWaiting(): Promise<void>;
  addEventListener<Name extends keyof ServiceWorkerGlobalScopeEventMap>(
    name: Name,
    listener: (event: ServiceWorkerGlobalScopeEventMap[Name]) => void,
  ): void;
}

interface WorkerNavigator {
  /** Not in every browser. */
  readonly connection?: { saveData: boolean };
}
