// Loaded before the program that is measured: tells at its end, on channel 3, what it has used.
const { writeSync } = require('node:fs');
const started = performance.timeOrigin;

process.on('exit', () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  const cpu = (userCPUTime + systemCPUTime) / 1000;
  writeSync(3, JSON.stringify({ cpu, wall: Date.now() - started, memory: maxRSS / 1024 }));
});
