using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("HandFhirBridge.Faults.Tests")]
