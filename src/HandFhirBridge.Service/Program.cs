using System.Globalization;
using HandFhirBridge.Service.Cli;

// What this program writes is read by machines and across borders: no culture of the machine it runs on.
CultureInfo.CurrentCulture = CultureInfo.DefaultThreadCurrentCulture = CultureInfo.InvariantCulture;
return await CommandLine.RunAsync(args, Console.OpenStandardInput(), Console.Out, Console.Error, CancellationToken.None);
