/* A stand-in for bcryptprimitives.dll, which Go asks for and the Wine of Debian 12 lacks. For the tests alone; never shipped. */
#include <windows.h>
BOOLEAN NTAPI SystemFunction036(PVOID, ULONG); /* RtlGenRandom */

__declspec(dllexport) BOOL WINAPI ProcessPrng(PBYTE data, SIZE_T size) {
  return SystemFunction036(data, (ULONG)size);
}
