using HandFhirBridge.Service.Security;

namespace HandFhirBridge.Service.Tests.Security;

public sealed class MachineKeyFileTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("hfb-keyfile-").FullName;

    private string KeyPath => Path.Combine(folder, "keys.json");

    [Fact]
    public void Add_NewName_GivesAKeyThatMatchesAndKeepsOnlyItsHash()
    {
        var file = new MachineKeyFile(KeyPath);

        var key = file.Add("loader", [Scopes.Submit]);

        var held = file.Read().ShouldHaveSingleItem();
        held.Matches(key).ShouldBeTrue();
        held.Matches(key + "0").ShouldBeFalse();
        held.Scopes.ShouldBe([Scopes.Submit]);
        File.ReadAllText(KeyPath).ShouldNotContain(key[^64..]);
    }

    [Fact]
    public void Add_TakenName_IsRefusedAndTheFileKept()
    {
        var file = new MachineKeyFile(KeyPath);
        var key = file.Add("loader", [Scopes.Submit]);

        Should.Throw<InvalidDataException>(() => file.Add("loader", [Scopes.Read])).Message.ShouldContain("loader");
        file.Read().ShouldHaveSingleItem().Matches(key).ShouldBeTrue();
    }

    [Fact]
    public void Read_BrokenFile_IsRefusedByName()
    {
        File.WriteAllText(KeyPath, "[{");

        Should.Throw<InvalidDataException>(() => new MachineKeyFile(KeyPath).Read()).Message.ShouldContain(KeyPath);
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);
}
