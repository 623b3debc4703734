// Lets a test program under Node.js see the environment, which carries GoogleTest's share of the tests.
Module['preRun'] = [() => Object.assign(ENV, process.env)];
