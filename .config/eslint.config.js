import js from '@eslint/js'
import vitest from '@vitest/eslint-plugin'
import jsdoc from 'eslint-plugin-jsdoc'
import { defineConfig } from 'eslint/config'
import tseslint from 'typescript-eslint'

const shells = ['src/cli/**', 'src/server/**', 'src/report/templates.ts']
const documented = ['src/impedance/**/*.ts', 'src/numerics/**/*.ts', 'src/signal/**/*.ts', 'src/section/**/*.ts']

export default defineConfig(
  { ignores: ['coverage/', 'build/'] },
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  js.configs.recommended,
  tseslint.configs.strictTypeChecked,
  {
    languageOptions: {
      parserOptions: { projectService: { allowDefaultProject: ['.config/*.js'] }, tsconfigRootDir: `${import.meta.dirname}/..` },
    },
    rules: {
      eqeqeq: 'error',
      complexity: ['error', 12],
      'max-depth': ['error', 4],
      'max-lines-per-function': ['error', { max: 70, skipBlankLines: true, skipComments: true }],
      '@typescript-eslint/strict-boolean-expressions': ['error', { allowNumber: false, allowNullableObject: true }],
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/require-array-sort-compare': 'error',
      '@typescript-eslint/explicit-module-boundary-types': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
    },
  },
  {
    files: ['src/**'],
    ignores: shells,
    rules: {
      'no-console': 'error',
      'no-restricted-globals': ['error', 'process', 'Date', 'performance', 'fetch'],
      'no-restricted-properties': ['error', { object: 'Math', property: 'random', message: 'Take a seeded generator.' }],
      'no-restricted-imports': [
        'error',
        { patterns: [{ group: ['node:*', 'express', 'commander'], message: 'Only the shells do I/O.' }] },
      ],
    },
  },
  {
    files: documented,
    plugins: { jsdoc },
    rules: {
      'jsdoc/check-param-names': 'error',
      'jsdoc/no-types': 'error',
    },
  },
  {
    files: ['tests/**', 'reference/**'],
    plugins: { vitest },
    rules: {
      ...vitest.configs.recommended.rules,
      '@typescript-eslint/explicit-module-boundary-types': 'off',
      'max-lines-per-function': 'off',
    },
  },
  { files: ['.config/**'], extends: [tseslint.configs.disableTypeChecked], languageOptions: { globals: { console: 'readonly', process: 'readonly', URL: 'readonly' } } },
)
