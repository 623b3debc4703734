// Lets a test program under Node.js see the environment, which carries GoogleTest's share of
// the tests. A program that never asks for it has none.
Module['preRun'] = [() => typeof ENV !== 'undefined' && Object.assign(ENV, process.env)];
