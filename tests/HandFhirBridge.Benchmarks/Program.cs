using HandFhirBridge.Benchmarks;

return args switch
{
    ["ratios", .. var options] => await RatiosCommand.RunAsync(options),
    [FirstVerdict.Command, var side, var path] => FirstVerdict.Run(side, path),
    ["stages"] => StagesCommand.Run(),
    _ => Usage(),
};

static int Usage()
{
    Console.Error.WriteLine(
        """
        usage: ratios [--json] [--quick]    every ratio, both sides measured in turn in this run
               stages                       where the time of a warm validation goes
        Build with -c Release.
        """);
    return 2;
}
