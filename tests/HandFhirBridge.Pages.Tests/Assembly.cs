using HandFhirBridge.Pages.Tests.Bedside;

// One browser and one service for all; timing is measured, so nothing runs beside it.
[assembly: AssemblyFixture(typeof(Browser))]
[assembly: AssemblyFixture(typeof(Clinic))]
[assembly: Xunit.v3.Parallelization(Mode = Xunit.Sdk.ParallelMode.None)]
