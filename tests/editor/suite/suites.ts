import './starting.test.ts';
