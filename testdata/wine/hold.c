/* Holds a file open as a spreadsheet program does, sharing it with readers alone, until its input ends. */
#include <stdio.h>
#include <windows.h>

int wmain(int count, wchar_t **words) {
  HANDLE file = CreateFileW(words[1], GENERIC_READ | GENERIC_WRITE, FILE_SHARE_READ, NULL, OPEN_EXISTING, 0, NULL);
  if (file == INVALID_HANDLE_VALUE) return 1;
  puts("held");
  fflush(stdout);
  getchar();
  CloseHandle(file);
  return 0;
}
