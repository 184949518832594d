using HandFhirBridge.Fhir.Validation.Remembered;

namespace HandFhirBridge.Fhir.Tests.Validation.Remembered;

public sealed class CleanShapesTests
{
    [Fact]
    public void Add_MoreThanTheCapacity_ForgetsWhatWasNotAskedFor()
    {
        var shapes = new CleanShapes(10);
        shapes.Add(Key(0));
        for (var number = 1; number <= 100; number++)
        {
            shapes.Add(Key(number));
            shapes.Contains(Key(0)).ShouldBeTrue();
        }

        Enumerable.Range(0, 101).Count(number => shapes.Contains(Key(number))).ShouldBeLessThanOrEqualTo(22);
        shapes.Contains(Key(100)).ShouldBeTrue();
        shapes.Contains(Key(1)).ShouldBeFalse();
    }

    [Fact]
    public void Add_OnManyThreads_KeepsTheLimit()
    {
        var shapes = new CleanShapes(100);

        Parallel.For(0, 20_000, number => shapes.Add(Key(number)));

        Enumerable.Range(0, 20_000).AsParallel().Count(number => shapes.Contains(Key(number))).ShouldBeLessThanOrEqualTo(400);
    }

    private static ShapeKey Key(int number) => ShapeKey.Of(BitConverter.GetBytes(number));
}
