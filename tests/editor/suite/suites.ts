import './starting.suite.ts';
