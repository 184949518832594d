using HandFhirBridge.Benchmarks;

return args switch
{
    ["ratios", .. var options] => await RatiosCommand.RunAsync(options),
    [FirstVerdict.Command, var side, var path] => await FirstVerdict.RunAsync(side, path),
    ["backload", var program, .. var options] => await BackloadCommand.RunAsync(program, options),
    ["stages"] => await StagesCommand.RunAsync(),
    [SummaryCommand.Usage] => SummaryCommand.Run(),
    [RecordCommand.Name] => await RecordCommand.RunAsync(count: 150),
    ["differential", .. var options] => DifferentialCommand.Run(options),
    _ => Usage(),
};

static int Usage()
{
    Console.Error.WriteLine(
        """
        usage: ratios [--json] [--quick] [--only NAMES]
                                            every ratio, both sides measured in turn in this run
               stages                       where the time of a session goes, and of a warm verdict
               summary                      summaries over a million trials
               record                       sessions a second that the embedded record takes
               differential [--count N] [--seed N] [--from N]
                                            verdicts from memory against those of the full validator, over bundles changed at random
               backload PROGRAM [--count N] [--csv]
                                            old sessions handed in by that program (the published service), 100,000 of them
        Build with -c Release.
        """);
    return 2;
}
